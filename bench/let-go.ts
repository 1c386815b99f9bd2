import { letGoTimes } from "./in-page/let-go.ts";
import { inPage } from "./in-page.ts";

/**
 * How long does it take to follow a load for 20 s after one of its two main lines has gone, and how does that compare with a
 * general-purpose physics engine (MuJoCo) at the same accuracy, in the same process (aim: 20 times)?
 *
 * Both are held against an answer of ours at a tolerance of 1e-11, whose agreement with the peer at small steps the
 * cross-check shows. Ours is measured at its usual tolerance, checks and report included; the peer gets the longest step that brings
 * its peak, its drop and its place at the end as near as ours, found by trying, its model built beforehand.
 * The peer knows neither sheave loss nor brakes, so the comparison leaves them out; with them ours is timed alone.
 */
export const benchLetGo = letGoTimes;

/** The same where the app does it, in a browser's engine. */
export const benchLetGoInApp = () => inPage("let-go", "letGoTimes");
