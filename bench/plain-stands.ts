import {
  cellMiddle,
  evenHeadings,
  groundZAt,
  type Outline,
  poseForTip,
  ratedTipLoad,
  type StandQuestion,
  site,
  standGrid,
  tipHeights,
  tipPlaces,
  vehiclePoint,
} from "@gantline/engine";
import polygonClipping, { type Polygon } from "polygon-clipping";

/**
 * The same question the plain way: every candidate in turn, with general-purpose polygon operations (polygon-clipping).
 *
 * Vehicle less its ground, vehicle and obstacles, and the ladder's shadow, a clearance wider all round, and obstacles; over what
 * they share the ladder's lower edge must be a clearance above the top. What a sensible hand would spare is spared: the
 * shadow is cut once for all heights, and only with obstacles whose boxes meet. Stands for level ground, a straight ladder
 * and obstacles from the ground up, without wires. Returns one number a cell: how many candidates are feasible.
 */
export function plainStands(question: StandQuestion): Uint32Array {
  const { device, target, steps } = question;
  const grid = standGrid(question);
  const heights = tipHeights(steps.tipHeights, target);
  const tips = tipPlaces(steps.tipPlaces, target.toleranceM);
  const headings = evenHeadings(steps.headings);
  const ground = question.parking.map((p) => asPolygon(p.outline));
  const keepOuts = question.keepOuts.map((k) => withBox(k.outline));
  const round = question.bodyObstacles.map((o) => withBox(o.outline));
  const standing = question.obstacles.map((o) => ({ ...withBox(o.outline), topZM: o.topZM }));
  const asked = question.ladderClearanceM ?? 0;
  const feasible = new Uint32Array(grid.rows * grid.columns);
  const { frontM, rearM, leftM, rightM } = device.outline;

  for (let cell = 0; cell < feasible.length; cell++) {
    const [turntableX, turntableY] = cellMiddle(grid, cell);
    const plane = question.parking[0]?.plane;
    const groundZM = plane ? groundZAt(plane, turntableX, turntableY) : 0;
    const place = (headingRad: number) => ({ turntableX, turntableY, groundZM, headingRad });
    let facing = 0;
    for (const headingRad of headings) {
      const outline = (grow: number): Outline =>
        [
          [frontM + grow, -leftM - grow],
          [frontM + grow, rightM + grow],
          [-rearM - grow, rightM + grow],
          [-rearM - grow, -leftM - grow],
        ].map(([forwardM, right]) => {
          const [x, y] = vehiclePoint(place(headingRad), { forwardM: forwardM ?? 0, rightM: right ?? 0, upM: 0 });
          return [x, y];
        });
      const vehicle = withBox(outline(0));
      const wide = withBox(outline(question.bodyClearanceM ?? 0));
      const jacks: Outline = device.jacks.map((j) => {
        const [x, y] = vehiclePoint(place(headingRad), { forwardM: j.forwardM, rightM: j.rightM, upM: 0 });
        return [x, y];
      });
      const feet = withBox(jacks);
      if (polygonClipping.difference(vehicle.polygon, ...ground).length > 0) continue;
      if (polygonClipping.difference(feet.polygon, ...ground).length > 0) continue;
      if (keepOuts.some((k) => meet(vehicle, k) || meet(feet, k))) continue;
      if (round.some((o) => meet(wide, o) || meet(feet, o))) continue;
      facing++;
    }
    if (facing === 0) continue;
    let posed = 0;
    for (let t = 0; t < tips.x.length; t++) {
      const x = target.xM + (tips.x[t] ?? 0);
      const y = target.yM + (tips.y[t] ?? 0);
      const far = Math.hypot(x - turntableX, y - turntableY);
      const [east, north] = [(x - turntableX) / far, (y - turntableY) / far];
      const half = device.beamWidthM / 2 + asked;
      const shadow = withBox(
        [
          [-device.pivotSetbackM - asked, -half],
          [far + asked, -half],
          [far + asked, half],
          [-device.pivotSetbackM - asked, half],
        ].map(([along, right]) => [
          turntableX + (along ?? 0) * east + (right ?? 0) * north,
          turntableY + (along ?? 0) * north - (right ?? 0) * east,
        ]),
      );
      const shared = standing
        .filter((o) => boxesMeet(shadow.box, o.box))
        .map((o) => ({
          topZM: o.topZM,
          points: polygonClipping.intersection(shadow.polygon, o.polygon).flat(2),
        }));
      for (const z of heights) {
        const { pose, within } = poseForTip(device, place(0), site(x, y, z));
        if (!within) continue;
        const rated = ratedTipLoad(device.tipRating, pose.elevationRad, pose.lengthM).ratedTipLoadN;
        if (rated === null || demandAt(question, pose.elevationRad) > rated * question.ratedFactor) continue;
        const tan = Math.tan(pose.elevationRad);
        const below = (device.beamDepthM / 2 + asked) / Math.cos(pose.elevationRad);
        const clears = shared.every(({ topZM, points }) =>
          points.every(([px, py]) => {
            const u = (px - turntableX) * east + (py - turntableY) * north + device.pivotSetbackM;
            return groundZM + device.pivotHeightM + u * tan - below >= topZM;
          }),
        );
        if (clears) posed++;
      }
    }
    feasible[cell] = facing * posed;
  }
  return feasible;
}

interface Boxed {
  readonly polygon: Polygon;
  readonly box: readonly [number, number, number, number];
}

const asPolygon = (outline: Outline): Polygon => [outline.map(([x, y]): [number, number] => [x, y])];

function withBox(outline: Outline): Boxed {
  const xs = outline.map((p) => p[0]);
  const ys = outline.map((p) => p[1]);
  return { polygon: asPolygon(outline), box: [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)] };
}

const boxesMeet = (a: Boxed["box"], b: Boxed["box"]): boolean =>
  a[0] <= b[2] && b[0] <= a[2] && a[1] <= b[3] && b[1] <= a[3];

const meet = (a: Boxed, b: Boxed): boolean =>
  boxesMeet(a.box, b.box) && polygonClipping.intersection(a.polygon, b.polygon).length > 0;

function demandAt({ tipDemand }: StandQuestion, elevationRad: number): number {
  const [low = 0, high = 1] = tipDemand?.elevationsRad ?? [];
  const [from, to] = tipDemand?.demandN ?? [];
  return (from ?? 0) + ((to ?? 0) - (from ?? 0)) * ((elevationRad - low) / (high - low));
}
