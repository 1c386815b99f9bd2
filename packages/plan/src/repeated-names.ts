import type { InputProblem } from "@gantline/engine";

type Level = { readonly path: string } & (
  | { readonly kind: "object"; readonly seen: Set<string>; name: string | null }
  | { readonly kind: "list"; index: number }
);

/** A string, or one of the marks that tell where things are; numbers and words between them do not matter here. */
const TOKEN = /"(?:[^"\\]|\\.)*"|[{}[\],:]/gs;

/**
 * Names that stand more than once in one object of a JSON text, each as a problem with its path (`lines.M`).
 *
 * A JSON parser keeps the last of them and drops the others without a word: a rope or a node would be missing. `text` is taken to
 * be JSON, as a parser that took it shows.
 */
export function repeatedNames(text: string): readonly InputProblem[] {
  const paths = new Set<string>();
  const levels: Level[] = [];
  for (const [token] of text.matchAll(TOKEN)) {
    const level = levels.at(-1);
    if (token === "{") levels.push({ kind: "object", path: pathIn(level), seen: new Set(), name: null });
    else if (token === "[") levels.push({ kind: "list", path: pathIn(level), index: 0 });
    else if (token === "}" || token === "]") levels.pop();
    else if (token === ",") next(level);
    else if (token !== ":" && level?.kind === "object" && level.name === null) {
      level.name = JSON.parse(token) as string;
      if (level.seen.has(level.name)) paths.add(pathIn(level));
      level.seen.add(level.name);
    }
  }
  return [...paths].map((path) => ({ path, got: "the same name more than once", expected: "each name once" }));
}

function next(level: Level | undefined): void {
  if (level?.kind === "list") level.index++;
  else if (level) level.name = null;
}

/** Path of what stands at the present place of a level. */
function pathIn(level: Level | undefined): string {
  if (!level) return "";
  if (level.kind === "list") return `${level.path}[${level.index}]`;
  return level.path === "" ? (level.name ?? "") : `${level.path}.${level.name}`;
}
