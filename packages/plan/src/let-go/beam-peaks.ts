import {
  addScaled,
  type BeamForce,
  dot,
  forceInBeamAxes,
  type LetGo,
  type PosedAerial,
  type SiteVector,
  type Watch,
  ZERO,
} from "@gantline/engine";

const AXES = ["axial", "normal", "lateral"] as const;
/** All rigging points together. */
export const ALL_POINTS = "all";

const watchName = (what: string, axis: (typeof AXES)[number]): string => `beam/${what}/${axis}`;

/**
 * What is to be watched so that each part of a force in beam axes is told at its own highest: what bends the ladder
 * sideways peaks at another moment than the whole.
 *
 * @param nodes the places of each rigging point, by its id, and of `ALL_POINTS`
 */
export const beamWatches = (
  { axes }: PosedAerial,
  nodes: Readonly<Record<string, readonly string[]>>,
): Readonly<Record<string, Watch>> =>
  Object.fromEntries(
    Object.entries(nodes).flatMap(([what, node]) =>
      AXES.map((axis) => [watchName(what, axis), { node, along: axes[axis] }] as const),
    ),
  );

/** Each part of the force at its own highest over all runs, the sign being that of the higher, put together as if at one moment, N. */
export const peakParts = ({ axes }: PosedAerial, runs: readonly LetGo[], what: string): SiteVector =>
  AXES.reduce((sum, axis) => {
    const peaks = runs.flatMap(({ watched }) => {
      const found = watched[watchName(what, axis)];
      return found ? [dot(found.forceN, axes[axis])] : [];
    });
    return addScaled(
      sum,
      axes[axis],
      peaks.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a), 0),
    );
  }, ZERO);

/** A force in beam axes, each part being that of `parts`; whole and directions at the moment at which the whole is highest. */
export const peakBeamForce = (posed: PosedAerial, atPeakN: SiteVector, partsN: SiteVector): BeamForce => {
  const { compressionN, normalN, lateralN } = forceInBeamAxes(posed, partsN);
  return { ...forceInBeamAxes(posed, atPeakN), compressionN, normalN, lateralN };
};
