import { asSite, type SiteVector } from "@gantline/engine";
import type { Plan } from "@gantline/plan";
import type { Primitive, WorldPoint } from "../primitives.ts";
import { shortened } from "./write.ts";

/** Where the person is (a ringed cross) and where they must go (a triangle standing on the place). */
export function drawPlaces(
  plan: Plan,
  project: (p: SiteVector) => WorldPoint,
  aside: (p: SiteVector) => string,
): readonly Primitive[] {
  const { casualty, destination } = plan.scene;
  const label = (at: WorldPoint, text: string): Primitive => ({
    kind: "text",
    at,
    text,
    align: "start",
    offsetPx: [12, -9],
    sizePx: 12,
    tone: "accent",
    halo: true,
    label: { priority: 45, keep: true },
  });
  const out: Primitive[] = [];
  if (casualty) {
    const p = asSite(casualty.position);
    const at = project(p);
    out.push(
      {
        kind: "circle",
        at,
        radiusPx: 7,
        style: { stroke: "accent", fill: "paper", widthPx: 1.8 },
        title: `Casualty: ${casualty.name}`,
      },
      { kind: "mark", at, shape: "cross", sizePx: 8, style: { stroke: "accent", widthPx: 1.8 } },
      label(at, `From: ${shortened(casualty.name, 30)}${aside(p)}`),
    );
  }
  if (destination) {
    const p = asSite(destination.position);
    const at = project(p);
    out.push(
      {
        kind: "mark",
        at,
        shape: "triangleDown",
        sizePx: 13,
        offsetPx: [0, -6],
        style: { stroke: "accent", fill: "paper", widthPx: 1.8 },
        title: `Destination: ${destination.name}`,
      },
      label(at, `To: ${shortened(destination.name, 30)}${aside(p)}`),
    );
  }
  return out;
}
