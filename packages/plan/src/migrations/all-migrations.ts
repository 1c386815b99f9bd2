import { from1 } from "./from-1.ts";
import { from2 } from "./from-2.ts";
import { from3 } from "./from-3.ts";

/** From each past format version to the next, by the version they start from. Pure, never changed once released. */
export const MIGRATIONS: Readonly<Record<number, (document: unknown) => unknown>> = { 1: from1, 2: from2, 3: from3 };
