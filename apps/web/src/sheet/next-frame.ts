/** Runs the last of the jobs given within a frame, once, at the next frame. */
export function nextFrame(): { readonly run: (job: () => void) => void; readonly finish: () => void } {
  let waiting: (() => void) | null = null;
  let frame = 0;
  const finish = () => {
    cancelAnimationFrame(frame);
    frame = 0;
    const job = waiting;
    waiting = null;
    job?.();
  };
  return {
    run(job) {
      waiting = job;
      if (frame === 0) frame = requestAnimationFrame(finish);
    },
    finish,
  };
}
