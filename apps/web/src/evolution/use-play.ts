import { useEffect, useRef, useState } from "react";

/** Seconds a stage takes when played: time to read its numbers. */
const STAGE_S = 4;

/**
 * Runs through the evolution at reading speed; from stage to stage, without motion, for those who want none.
 *
 * @param at where it is now, 0 to 1
 * @param count stages there are
 * @param stageS how long each of them takes, s
 */
export function usePlay(at: number, count: number, show: (place: number) => void, stageS = STAGE_S) {
  const [playing, setPlaying] = useState(false);
  const latest = useRef({ at, show });
  latest.current = { at, show };
  useEffect(() => {
    if (!playing) return;
    const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
    let frame = 0;
    let last = performance.now();
    const step = (now: number) => {
      const seconds = (now - last) / 1000;
      if (!still || seconds >= stageS) {
        last = now;
        const next = still
          ? (Math.floor(latest.current.at * count + 1e-9) + 1) / count
          : latest.current.at + seconds / (stageS * count);
        latest.current.show(Math.min(1, next));
        if (next >= 1) {
          setPlaying(false);
          return;
        }
      }
      frame = requestAnimationFrame(step);
    };
    frame = requestAnimationFrame(step);
    return () => cancelAnimationFrame(frame);
  }, [playing, count, stageS]);
  return {
    playing,
    pause: () => setPlaying(false),
    toggle: () => {
      if (!playing && at >= 1) show(0);
      setPlaying(!playing);
    },
  };
}
