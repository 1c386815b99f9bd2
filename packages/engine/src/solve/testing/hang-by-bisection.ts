/** Pull of a hanging rope: level, and upward at its first and last end (toward the last), N. */
export interface HangingPull {
  readonly levelN: number;
  readonly upAtAN: number;
  readonly upAtBN: number;
}

/**
 * The elastic catenary straight from its textbook equations (Irvine) by bisection in bisection; shares no thought with the solver.
 *
 * At a level pull H the rise grows with the upward pull V at the far end; with V so chosen, the level way grows with H.
 * Good to about 1e-15·H/w of way.
 */
export function hangByBisection(
  levelM: number,
  riseM: number,
  lengthM: number,
  stiffnessN: number,
  weightNM: number,
): HangingPull {
  const w = weightNM;
  const most = 4 * (w * lengthM + stiffnessN * (1 + Math.hypot(levelM, riseM) / lengthM));
  const upAtB = (h: number) =>
    bisect(-most, most, (v) => {
      const va = v - w * lengthM;
      const rise = (v * lengthM - (w * lengthM ** 2) / 2) / stiffnessN + (Math.hypot(h, v) - Math.hypot(h, va)) / w;
      return rise - riseM;
    });
  const logH = bisect(-200, Math.log(most), (log) => {
    const h = Math.exp(log);
    const v = upAtB(h);
    return (h * lengthM) / stiffnessN + (h / w) * (Math.asinh(v / h) - Math.asinh((v - w * lengthM) / h)) - levelM;
  });
  const levelN = Math.exp(logH);
  const v = upAtB(levelN);
  return { levelN, upAtAN: v - w * lengthM, upAtBN: v };
}

function bisect(from: number, to: number, rising: (x: number) => number): number {
  let low = from;
  let high = to;
  for (let i = 0; i < 200; i++) {
    const middle = 0.5 * (low + high);
    if (middle === low || middle === high) break;
    if (rising(middle) < 0) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high);
}
