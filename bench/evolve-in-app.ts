import { inPage } from "./in-page.ts";

/**
 * How long does a whole example evolution take where the app sweeps it: in a browser's engine, built as the app is, every
 * stage swept and every check judged at every moment (aim: under 60 ms, median, for 200 moments)?
 */
export const benchEvolveInApp = () => inPage("evolve", "evolveTimes");
