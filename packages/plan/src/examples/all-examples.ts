import type { Plan } from "../schema/plan.ts";
import { crossingExample } from "./crossing.ts";
import { faultExample } from "./fault.ts";
import { roofExample } from "./roof.ts";

export interface Example {
  /** As typed on the command line. */
  readonly key: string;
  readonly title: string;
  readonly plan: Plan;
}

/** Invented plans to learn from. */
export const EXAMPLES: readonly Example[] = [
  { key: "crossing", title: "Litter across the flood wall", plan: crossingExample },
  { key: "roof", title: "Rescuer to the grain store roof", plan: roofExample },
  { key: "fault", title: "A fault to find", plan: faultExample },
];
