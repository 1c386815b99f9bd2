import { STAND_STATUSES } from "@gantline/engine";
import type { FoundStands } from "./stand-types.ts";

const FEASIBLE = STAND_STATUSES.indexOf("feasible");
const REJECTED = STAND_STATUSES.indexOf("rejected");

/**
 * Cells from which one vehicle serves every aim without parking anew: feasible for all of them, or, where there are none, cells that
 * none of them rejects. Exact on the grid: whether the vehicle may stand does not depend on the aim, so that any heading that
 * does for one aim does for all.
 *
 * @param found of one vehicle over the same parking ground with the same cells, one for each aim
 */
export function servesAll(found: readonly FoundStands[]): ReadonlySet<number> {
  const feasible = cellsOf(found, (status) => status === FEASIBLE);
  return feasible.size > 0 ? feasible : cellsOf(found, (status) => status !== REJECTED);
}

function cellsOf(found: readonly FoundStands[], is: (status: number) => boolean): ReadonlySet<number> {
  const sets = found.map(
    ({ bands }) => new Set(bands.flatMap(({ cells, status }) => [...cells].filter((_, i) => is(status[i] as number)))),
  );
  const [first, ...rest] = sets;
  return new Set([...(first ?? [])].filter((cell) => rest.every((set) => set.has(cell))));
}
