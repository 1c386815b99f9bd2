import type {
  CriticalPoint,
  LetGoCase,
  LetGoEvolution,
  LetGoPart,
  LetGoTask,
  Plan,
  SweptCase,
  TechniqueRow,
  When,
} from "@gantline/plan";

/** What jobs are about: a plan, the moment that is looked at (null: the one position the rig names), and whether the tip gives. */
export interface LetGoMatter {
  readonly plan: Plan;
  readonly when: When | null;
  readonly tipGives: boolean;
}

export type LetGoJob =
  /** Every line at one part, from 0, of so many parts of the evolution's moments. */
  | { readonly kind: "cuts"; readonly part: number; readonly of: number }
  /** A piece of what is left to do after them. */
  | { readonly kind: "task"; readonly task: LetGoTask }
  /** What all of it comes to. */
  | { readonly kind: "gather"; readonly swept: readonly SweptCase[]; readonly parts: readonly LetGoPart[] }
  /** One line at the moment. */
  | { readonly kind: "case"; readonly lineId: string }
  /** Every part, anchor and pair of hands taken away at the moment. */
  | { readonly kind: "critical" }
  /** Other ways to rig on this scene. */
  | { readonly kind: "techniques" };

export type LetGoAnswer =
  | { readonly kind: "cuts"; readonly swept: readonly SweptCase[] }
  | { readonly kind: "task"; readonly part: LetGoPart }
  | { readonly kind: "gather"; readonly found: LetGoEvolution }
  | { readonly kind: "case"; readonly one: LetGoCase }
  | { readonly kind: "critical"; readonly points: readonly CriticalPoint[] }
  | { readonly kind: "techniques"; readonly rows: readonly TechniqueRow[] };

/** Every line let go at every moment, as far as it has come. */
export interface KeptLetGo {
  readonly phase: "running" | "done" | "stopped";
  /** 0 to 1. */
  readonly looked: number;
  /** The latest there is, and the plan it is of; null before the first, and where the tip was taken otherwise than it is now. */
  readonly found: LetGoEvolution | null;
  readonly of: Plan | null;
  /** A fault of the program itself. */
  readonly fault: string | null;
}
