import type { Plan } from "../schema/plan.ts";
import { standPlacement } from "./stand-placement.ts";
import type { StandEntry } from "./stand-types.ts";
import { withStand } from "./with-stand.ts";

/**
 * The stands of a short list with the room they leave to be parked off, and the roomiest of each vehicle marked.
 *
 * The room is that of `standPlacement`: so far off in any direction everything that was looked at still holds. It takes a second
 * or two for each stand that does not fail; for the others it stays `null`. The roomiest is of those listed: stands are not
 * sought by their room. Returns `null` if cancelled, which is asked before each stand.
 */
export function withRoom(
  plan: Plan,
  entries: readonly StandEntry[],
  cancelled: () => boolean = () => false,
): readonly StandEntry[] | null {
  const roomy: StandEntry[] = [];
  for (const entry of entries) {
    if (cancelled()) return null;
    roomy.push(entry.fit === "fails" ? entry : { ...entry, roomM: roomOf(plan, entry) });
  }
  return roomy.map((entry) => (isRoomiest(entry, roomy) ? { ...entry, bestBy: [...entry.bestBy, "roomiest"] } : entry));
}

function roomOf(plan: Plan, { choice }: StandEntry): number | null {
  const { area, heldToLoad } = standPlacement(withStand(plan, choice));
  return area !== null && heldToLoad ? area.freeM : null;
}

/** Of the stands of one vehicle that fit as well as any the first with the most room, if there is any. */
function isRoomiest(entry: StandEntry, all: readonly StandEntry[]): boolean {
  const own = all.filter((e) => e.choice.device.id === entry.choice.device.id);
  const best = own.filter((e) => e.fit === own[0]?.fit);
  const most = Math.max(0, ...best.map((e) => e.roomM ?? 0));
  return most > 0 && best.find((e) => e.roomM === most) === entry;
}
