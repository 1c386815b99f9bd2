import type { Plan } from "../schema/plan.ts";

const mirrorX = ([x, ...rest]: readonly number[]): never => [-x!, ...rest] as never;

/** The same plan, with its stages, seen in a mirror that stands north and south: east is west, right is left. */
export function mirroredPlan(plan: Plan): Plan {
  const turn = (bearing: number): number => (2 * Math.PI - bearing) % (2 * Math.PI);
  const flip = <T extends { readonly rightM: number }>(p: T): T => ({ ...p, rightM: -p.rightM });
  const { scene, aerial, rig, evolution } = plan;
  const { device } = aerial;
  return {
    ...plan,
    scene: {
      ...scene,
      structures: scene.structures.map((s) => ({ ...s, outline: s.outline.map(mirrorX) })),
      parking: scene.parking.map((p) => ({
        ...p,
        outline: p.outline.map(mirrorX),
        downhillBearingRad: turn(p.downhillBearingRad),
      })),
      areas: scene.areas.map((a) => ({ ...a, outline: a.outline.map(mirrorX) })),
      powerLines: scene.powerLines.map((l) => ({ ...l, wire: l.wire.map(mirrorX) })),
      casualty: scene.casualty && { ...scene.casualty, position: mirrorX(scene.casualty.position) },
      destination: scene.destination && { ...scene.destination, position: mirrorX(scene.destination.position) },
      wind: { ...scene.wind, fromBearingRad: turn(scene.wind.fromBearingRad) },
    },
    aerial: {
      ...aerial,
      place: { ...aerial.place, turntableX: -aerial.place.turntableX, headingRad: turn(aerial.place.headingRad) },
      pose: { ...aerial.pose, bearingRad: turn(aerial.pose.bearingRad) },
      device: {
        ...device,
        jacks: device.jacks.map(flip),
        anchors: device.anchors.map(flip),
        riggingPoints: device.riggingPoints.map((p) => ({ ...p, lateralM: -p.lateralM })),
      },
    },
    rig: {
      ...rig,
      load: {
        ...rig.load,
        positionM: mirrorX(rig.load.positionM),
        box: { ...rig.load.box, bearingRad: turn(rig.load.box.bearingRad) },
      },
      taglines: rig.taglines.map((t) => ({ ...t, handler: mirrorX(t.handler) })),
    },
    evolution: {
      startM: mirrorX(evolution.startM),
      stages: evolution.stages.map((s) => ({
        ...s,
        path: s.path.map(mirrorX),
        pose: s.pose && { ...s.pose, bearingRad: turn(s.pose.bearingRad) },
      })),
    },
  };
}
