/** Where in an answer a number is NaN or infinite: its path and value. Looks into everything, lists of numbers included. */
export function unsoundNumbers(answer: unknown, path = "", seen: Set<unknown> = new Set()): readonly string[] {
  if (typeof answer === "number") return Number.isFinite(answer) ? [] : [`${path} is ${answer}`];
  if (typeof answer !== "object" || answer === null || seen.has(answer)) return [];
  seen.add(answer);
  return Object.entries(answer).flatMap(([key, value]) => unsoundNumbers(value, `${path}.${key}`, seen));
}
