import { inPage } from "./in-page.ts";

/**
 * How long does one cut of an example plan take (aim: under 2 ms, median), each line at every sixth moment, as the fine
 * pass follows it, those that a pulley rides told apart; and how long every line cut at every moment of its evolution, where
 * the app does it: in a browser's engine, on two threads, jobs and answers as messages, news of how far it is (aim: under
 * 500 ms for 400 cuts and more)? And with what is gathered after them: the worst followed finely, parts held to their
 * strength, the map of shares and slack.
 *
 * The first sweep, of threads that have just started, is told apart. Checks on how the load hangs before the cut are not in
 * the time of one cut; they are in that of the sweep.
 */
export const benchLetGoSweep = () => inPage("let-go-sweep", "letGoSweepTimes", "apps/web/src/state/let-go-worker.ts");
