/** An id like `wanted` that none of the items has. */
export function freshId(wanted: string, items: readonly { readonly id?: string }[]): string {
  const stem =
    wanted
      .toLowerCase()
      .replace(/[^a-z0-9._-]+/g, "-")
      .replace(/^[^a-z]+/, "")
      .replace(/-\d+$/, "")
      .slice(0, 56) || "part";
  const taken = new Set(items.map((item) => item.id));
  for (let number = items.length + 1; ; number++) {
    const id = `${stem}-${number}`;
    if (!taken.has(id)) return id;
  }
}
