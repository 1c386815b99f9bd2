import type { InputProblem } from "@gantline/engine";
import type { Finished } from "./command.ts";

/** The command line itself is wrong: a plain sentence and exit status 2. */
export function badUsage(command: string, sentence: string): Finished {
  const help = command === "" ? "gantline --help" : `gantline ${command} --help`;
  return { exitStatus: 2, complaint: `${sentence}\nSee: ${help}\n` };
}

/** What was put in cannot be used: each problem with its field, on standard error; with `json` on standard output as well. */
export function badInput(problems: readonly InputProblem[], json: boolean): Finished {
  const sentences = problems.map(sentenceOf);
  const first = { where: problems[0]?.path ?? "", hint: sentences[0] ?? "" };
  return refused({ code: "bad-input", ...first, problems }, sentences, json);
}

/** Nothing could be read at all; `sentence` says why. */
export function nothingRead(sentence: string, path: string, expected: string, json: boolean): Finished {
  const problems: readonly InputProblem[] = [{ path, got: "nothing", expected }];
  return refused({ code: "bad-input", where: path, hint: sentence, problems }, [sentence], json);
}

/** It cannot be done; `hint` says why, `where` the field or file it is about. */
export const notDone = (code: string, where: string, hint: string, json: boolean): Finished =>
  refused({ code, where, hint }, [hint], json);

interface Refusal {
  readonly code: string;
  readonly where: string;
  readonly hint: string;
  readonly problems?: readonly InputProblem[];
}

/** Every refusal: sentences on standard error; with `json` on standard output what a failure is everywhere, `where` and all. */
function refused(refusal: Refusal, sentences: readonly string[], json: boolean): Finished {
  const complaint = sentences.map((s) => `${s}\n`).join("");
  return { exitStatus: 2, complaint, ...(json ? { output: writeJson({ ok: false, ...refusal }) } : {}) };
}

export const writeJson = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;

const sentenceOf = ({ path, got, expected, unit }: InputProblem): string =>
  `${path}: got ${got}, expected ${expected}${unit ? ` (${unit})` : ""}.`;
