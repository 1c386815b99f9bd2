/** A new random id. `randomUUID` is missing where the page is served without TLS, as on a station's own network. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(12));
  return `p${Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("")}`;
}
