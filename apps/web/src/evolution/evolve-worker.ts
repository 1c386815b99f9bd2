import { evolve, type Plan } from "@gantline/plan";

/** Sweeps each plan it is sent and sends the evolution back with the number it came under. */
self.onmessage = ({ data }: MessageEvent<{ readonly turn: number; readonly plan: Plan }>) => {
  try {
    self.postMessage({ turn: data.turn, evolution: evolve(data.plan) });
  } catch (error) {
    self.postMessage({ turn: data.turn, fault: error instanceof Error ? error.message : String(error) });
  }
};
