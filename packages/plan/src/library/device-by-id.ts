import type { Device } from "../schema/aerial.ts";
import { EXAMPLE_DEVICES } from "./devices.ts";

/** One of the invented vehicles; throws on an id there is none of (a fault of the caller, not of a user). */
export function deviceById(id: string): Device {
  const device = EXAMPLE_DEVICES.find((d) => d.id === id);
  if (!device) throw new Error(`no device "${id}" in the library`);
  return device;
}
