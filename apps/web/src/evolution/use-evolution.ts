import type { Evolution, Plan } from "@gantline/plan";
import { useEffect, useRef, useState } from "react";

type Answer = { readonly turn: number } & ({ readonly evolution: Evolution } | { readonly fault: string });

export interface Swept {
  /** The latest sweep there is; null before the first. */
  readonly evolution: Evolution | null;
  /** The plan it was swept from. */
  readonly plan: Plan | null;
  readonly fault: string | null;
}

/**
 * The evolution of a plan, swept in a worker. While one sweep runs only the latest plan waits; an answer to an older plan
 * still shows until the newer one is there, so that a drag is followed at the pace the machine can keep.
 */
export function useEvolution(plan: Plan): Swept {
  const [swept, setSwept] = useState<Swept>({ evolution: null, plan: null, fault: null });
  const worker = useRef<Worker | null>(null);
  const running = useRef<Plan | null>(null);
  const waiting = useRef<Plan | null>(null);
  const turn = useRef(0);

  useEffect(() => {
    const made = new Worker(new URL("./evolve-worker.ts", import.meta.url), { type: "module" });
    made.onmessage = ({ data }: MessageEvent<Answer>) => {
      const of = running.current;
      running.current = null;
      if (data.turn === turn.current && of !== null) {
        setSwept(
          "evolution" in data
            ? { evolution: data.evolution, plan: of, fault: null }
            : { evolution: null, plan: of, fault: data.fault },
        );
      }
      if (waiting.current !== null) send(waiting.current);
    };
    const send = (next: Plan) => {
      waiting.current = null;
      running.current = next;
      made.postMessage({ turn: ++turn.current, plan: next });
    };
    worker.current = made;
    if (waiting.current !== null) send(waiting.current);
    return () => {
      made.terminate();
      worker.current = null;
      running.current = null;
    };
  }, []);

  useEffect(() => {
    waiting.current = plan;
    if (worker.current === null || running.current !== null) return;
    waiting.current = null;
    running.current = plan;
    worker.current.postMessage({ turn: ++turn.current, plan });
  }, [plan]);

  return swept;
}
