import { ladderSolid, platformSolid, vehicleSolid } from "../../aerial/aerial-solids.ts";
import type { AerialPlace } from "../../aerial/device.ts";
import { jackFeet } from "../../aerial/jack-lines.ts";
import { poseAerial } from "../../aerial/pose-aerial.ts";
import { poseForRiggingPoint } from "../../aerial/pose-for-rigging-point.ts";
import { ratedTipLoad } from "../../aerial/rated-tip-load.ts";
import { vehiclePoint } from "../../aerial/vehicle-point.ts";
import { addScaled, asSite, bearingVector, site, UP } from "../../base/vector.ts";
import { clearance } from "../../scene/clearance.ts";
import { groundZAt, slopesUnderVehicle } from "../../scene/ground-plane.ts";
import { distanceToOutlineM, pointInPolygon } from "../../scene/outline.ts";
import { extrudedOutline, polyline, type Shape } from "../../scene/solids.ts";
import type { StandCandidate, StandQuestion } from "../stand-question.ts";

/**
 * One candidate, judged check by check with the engine's general functions and nothing of the search.
 *
 * `spareByCheck` is how far each check is from failing, in its own unit; negative fails. Containment in plan is tried at
 * the corners alone. `null`: the turntable lies on no parking ground.
 */
export function wholeCheck(
  question: StandQuestion,
  { turntable, headingRad, point }: StandCandidate,
): Readonly<Record<string, number>> | null {
  const { device, obstacles, bodyObstacles, wires } = question;
  const ground = question.parking.find((p) => pointInPolygon(p.outline, turntable));
  if (!ground) return null;
  const [turntableX, turntableY] = turntable;
  const place: AerialPlace = {
    turntableX,
    turntableY,
    headingRad,
    groundZM: groundZAt(ground.plane, turntableX, turntableY),
  };
  const hungFrom = question.hungFrom ?? { on: "ladder" as const, alongM: 0, lateralM: 0, dropM: 0 };
  const found = poseForRiggingPoint(
    device,
    place,
    { ...hungFrom, id: "", name: "", ratingN: null, ratingBasis: null, ratingSource: "", structural: null },
    site(...point),
  );
  const { pose } = found;
  const posed = poseAerial(device, place, pose);
  const standing = obstacles.map((o) => extrudedOutline(o.outline, o.bottomZM, o.topZM));
  const round = bodyObstacles.map((o) => extrudedOutline(o.outline, o.bottomZM, o.topZM));
  const hanging = wires.map((w) => ({ shape: polyline(w.points.map(asSite)), requiredM: w.requiredM ?? 0 }));
  const ladder = [ladderSolid(device, posed)];
  const platform = [platformSolid(device, posed)].filter((s) => s !== null);
  const vehicle = vehicleSolid(device, place);
  const feet = jackFeet(device, place, question.jackReach).map((f) => f.position);
  const halves = device.jacks.map((j) => (question.jackPadSideM?.[j.id] ?? 0) / 2);
  /** The corners of every pad, the middle where its size is not asked for. */
  const padCorners = feet.map((f, j) => {
    const half = halves[j] ?? 0;
    const [fore, side] = [bearingVector(headingRad), bearingVector(headingRad + Math.PI / 2)];
    const signs = [
      [1, 1],
      [1, -1],
      [-1, -1],
      [-1, 1],
    ] as const;
    return half > 0 ? signs.map(([a, b]) => addScaled(addScaled(f, fore, a * half), side, b * half)) : [f];
  });
  const jacks = padCorners.map((corners) =>
    corners.length > 1
      ? extrudedOutline(
          corners.map((c) => [c[0], c[1]] as const),
          place.groundZM,
          place.groundZM + device.outline.heightM,
        )
      : polyline(corners.flatMap((f) => [f, addScaled(f, UP, device.outline.heightM)])),
  );
  const least = (shapes: readonly Shape[], others: readonly Shape[]): number =>
    shapes.reduce((m, a) => others.reduce((n, b) => Math.min(n, clearance(a, b).distanceM), m), 1e9);

  const { frontM, rearM, leftM, rightM } = device.outline;
  const corners = [
    [frontM, -leftM],
    [frontM, rightM],
    [-rearM, rightM],
    [-rearM, -leftM],
  ].map(([forwardM, right]) => vehiclePoint(place, { forwardM: forwardM ?? 0, rightM: right ?? 0, upM: 0 }));
  const inside = (outline: StandQuestion["keepOuts"][number]["outline"], p: readonly number[]): number => {
    const at = [p[0] ?? 0, p[1] ?? 0] as const;
    return (pointInPolygon(outline, at, 0) ? 1 : -1) * distanceToOutlineM(outline, at);
  };
  const onGround = Math.min(...[...corners, ...padCorners.flat()].map((p) => inside(ground.outline, p)));
  const offKeepOut = question.keepOuts.reduce(
    (m, k) => Math.min(m, ...[...corners, ...padCorners.flat()].map((p) => -inside(k.outline, p))),
    1e9,
  );
  const slopes = slopesUnderVehicle(ground.plane, headingRad);
  const rated = ratedTipLoad(device.tipRating, pose.elevationRad, pose.lengthM).ratedTipLoadN;
  const demand = interpolate(question, pose.elevationRad);
  return {
    reach:
      found.missM > 1e-6
        ? -1
        : Math.min(
            device.lengthMaxM - pose.lengthM,
            pose.lengthM - device.lengthMinM,
            device.elevationMaxRad - pose.elevationRad,
            pose.elevationRad - device.elevationMinRad,
          ),
    rating: rated === null || demand === null ? Number.NaN : rated * question.ratedFactor - demand,
    ladder: least(ladder, standing) - (question.ladderClearanceM ?? 0),
    platform: least(platform, standing) - (question.ladderClearanceM ?? 0),
    platformWires: hanging.reduce((m, w) => Math.min(m, least(platform, [w.shape]) - w.requiredM), 1e9),
    ladderWires: hanging.reduce((m, w) => Math.min(m, least(ladder, [w.shape]) - w.requiredM), 1e9),
    body: Math.min(least([vehicle], round), least(jacks, round)) - (question.bodyClearanceM ?? 0),
    bodyWires: hanging.reduce((m, w) => Math.min(m, least([vehicle], [w.shape]) - w.requiredM), 1e9),
    onGround,
    offKeepOut,
    slope: (question.slopeLimitRad ?? 0) - Math.max(Math.abs(slopes.alongRad), Math.abs(slopes.acrossRad)),
  };
}

/** By elevation alone: the example questions ask for no more. */
function interpolate({ tipDemand }: StandQuestion, elevationRad: number): number | null {
  const table = tipDemand?.elevationsRad.map((rad, i) => ({ elevationRad: rad, demandN: tipDemand.demandN[i] ?? 0 }));
  if (!table || table.length === 0) return null;
  const above = table.findIndex((d) => d.elevationRad > elevationRad);
  const b = table[above];
  const a = table[above - 1];
  if (above === 0) return table[0]?.demandN ?? null;
  if (!a || !b) return table.at(-1)?.demandN ?? null;
  return a.demandN + ((b.demandN - a.demandN) * (elevationRad - a.elevationRad)) / (b.elevationRad - a.elevationRad);
}
