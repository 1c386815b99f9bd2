/** The memory behind all typed arrays within plain data, each once: what can be handed to another thread without copying. */
export function buffersIn(data: unknown): ArrayBuffer[] {
  const found = new Set<ArrayBuffer>();
  const look = (value: unknown): void => {
    if (typeof value !== "object" || value === null) return;
    if (ArrayBuffer.isView(value)) {
      if (value.buffer instanceof ArrayBuffer) found.add(value.buffer);
    } else Object.values(value).forEach(look);
  };
  look(data);
  return [...found];
}
