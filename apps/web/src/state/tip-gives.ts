import type { Plan } from "@gantline/plan";
import type { Desk } from "./desk.ts";

/** A ladder whose sections are not entered cannot be taken to give. */
export const canGive = ({ aerial }: Plan): boolean => aerial.device.sections !== null;

/** Is the tip of the ladder on the desk taken to give when a line goes? */
export const givesTip = ({ tipGives, history }: Pick<Desk, "tipGives" | "history">): boolean =>
  tipGives && canGive(history.present);
