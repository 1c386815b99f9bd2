import type { Finding } from "../judge.ts";
import type { Stage } from "../schema/evolution.ts";
import { holdsWithoutLoad } from "./holds-without-load.ts";

/** Which checks apply in a stage: with nothing on the ropes only those of vehicle and ladder; a ladder that is to move is not locked out. */
export const appliesInStage =
  ({ aboard, action }: Stage): ((check: Pick<Finding, "id" | "rule">) => boolean) =>
  (check) =>
    (aboard.length > 0 || holdsWithoutLoad(check)) && !(action === "moveLadder" && check.rule === "lock-out");
