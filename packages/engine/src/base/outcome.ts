/**
 * A physical outcome that is not an answer: a typed reason, never a partial number.
 * `Code` says what happened, `where` the node, line or part it happened at, `hint` what a person can do,
 * `replay` is the input that brings it about again.
 */
export interface Failure<Code extends string, Input = unknown> {
  readonly ok: false;
  readonly code: Code;
  readonly where: string;
  readonly hint: string;
  /** Largest force left out of balance, N, where there is one. */
  readonly residualN?: number;
  readonly replay?: Input;
}

/** One thing wrong with what was put in: the field, what was got, what is expected. */
export interface InputProblem {
  /** Path of the field, as `nodes.load.massKg` or `lines.M.through[2]`. */
  readonly path: string;
  readonly got: string;
  readonly expected: string;
  readonly unit?: string;
}
