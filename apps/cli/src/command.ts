import type { ParseArgsConfig } from "node:util";

type Options = NonNullable<ParseArgsConfig["options"]>;

/** What was given on the command line, after parsing. */
export interface Arguments {
  readonly positionals: readonly string[];
  readonly values: Readonly<Record<string, string | boolean | undefined>>;
}

/** How a command ended: 0 is well, 1 something is over, unknown or unsolved, 2 the input cannot be used. */
export interface Finished {
  readonly exitStatus: 0 | 1 | 2;
  /** For standard output. */
  readonly output?: string;
  /** For standard error: plain sentences. */
  readonly complaint?: string;
}

/** One command of the command line. */
export interface Command {
  readonly name: string;
  /** What it does, in one line. */
  readonly summary: string;
  /** What `--help` prints. */
  readonly help: string;
  readonly options: Options;
  readonly mostPositionals: number;
  readonly run: (given: Arguments) => Finished | Promise<Finished>;
}
