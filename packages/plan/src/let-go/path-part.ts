import type { CriticalPoint, LetGoChoices } from "./let-go-plan-types.ts";

/** What it does to the rig that a part is taken away. */
export type PartEffect =
  | { readonly kind: "goes"; readonly cut: readonly string[]; readonly lost: NonNullable<LetGoChoices["lost"]> }
  | { readonly kind: "none"; readonly says: string }
  | { readonly kind: "unknown"; readonly says: string };

export interface PathPart extends Pick<CriticalPoint, "id" | "subject" | "kind" | "at" | "lines" | "unavoidable"> {
  readonly effect: PartEffect;
}
