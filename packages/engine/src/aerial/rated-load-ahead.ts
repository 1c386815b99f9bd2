import type { AerialDevice } from "./device.ts";

/** How far ahead of the tip does the maker's rated load act, level, m? At the tip of a ladder; ahead of a platform's hinge. */
export function ratedLoadAheadM(device: AerialDevice): number {
  return device.kind === "platform" ? (device.platform?.ratedLoadForwardM ?? 0) : 0;
}
