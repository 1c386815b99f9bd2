/** How many answers are kept: vehicles × aims of a few questions. */
const KEPT = 24;

/** The same answer for the same key without working it out again. Pure outside: `work` must depend on nothing but the key. */
export function remembered<T>(): (key: string, work: () => T) => T {
  const known = new Map<string, { readonly answer: T }>();
  return (key, work) => {
    const before = known.get(key);
    if (before) return before.answer;
    const answer = work();
    const [oldest] = known.keys();
    if (known.size >= KEPT && oldest !== undefined) known.delete(oldest);
    known.set(key, { answer });
    return answer;
  };
}
