import { movedSolid, type Solid, site } from "@gantline/engine";

/** Each solid as last raised: one load has one height over many runs. */
const lastRaised = new WeakMap<Solid, { readonly byM: number; readonly raised: Solid }>();

/** The same solid, so much higher, m. */
export function raisedSolid(solid: Solid, by: number): Solid {
  // What rounding makes of one load hung at one place and another is left out.
  const byM = Math.round(by * 1e9) / 1e9;
  const known = lastRaised.get(solid);
  if (known?.byM === byM) return known.raised;
  const raised = movedSolid(solid, site(0, 0, byM));
  lastRaised.set(solid, { byM, raised });
  return raised;
}
