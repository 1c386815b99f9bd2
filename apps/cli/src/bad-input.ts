import type { InputProblem } from "@gantline/engine";
import type { Finished } from "./command.ts";

/** The command line itself is wrong: a plain sentence and exit status 2. */
export function badUsage(command: string, sentence: string): Finished {
  const help = command === "" ? "gantline --help" : `gantline ${command} --help`;
  return { exitStatus: 2, complaint: `${sentence}\nSee: ${help}\n` };
}

/** What was put in cannot be used: each problem with its field, on standard error; with `json` on standard output as well. */
export function badInput(problems: readonly InputProblem[], json: boolean): Finished {
  const complaint = problems.map((p) => `${sentenceOf(p)}\n`).join("");
  return json
    ? { exitStatus: 2, complaint, output: writeJson({ ok: false, code: "bad-input", problems }) }
    : { exitStatus: 2, complaint };
}

/** Nothing could be read at all; `sentence` says why. */
export function nothingRead(sentence: string, path: string, expected: string, json: boolean): Finished {
  const complaint = `${sentence}\n`;
  return json ? { ...badInput([{ path, got: "nothing", expected }], true), complaint } : { exitStatus: 2, complaint };
}

export const writeJson = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;

const sentenceOf = ({ path, got, expected, unit }: InputProblem): string =>
  `${path}: got ${got}, expected ${expected}${unit ? ` (${unit})` : ""}.`;
