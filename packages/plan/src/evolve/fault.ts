import type { Phrase } from "../units/quantity.ts";
import type { StageProblem } from "./evolution-types.ts";

/** A problem of a stage before it has its place among the others. */
export type Fault = Omit<StageProblem, "id">;

/** Puts a fault at a field of the stage, throughout the stage or at a share of it. */
export type AddFault = (status: Fault["status"], at: string, says: Phrase, along?: number) => void;
