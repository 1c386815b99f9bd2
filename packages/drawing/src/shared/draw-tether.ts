import type { SiteVector } from "@gantline/engine";
import type { Evaluation } from "@gantline/plan";
import type { Primitive, WorldPoint } from "../primitives.ts";

const AGAINST = { tip: "the tip sheave", redirect: "the first redirect", yoke: "the yoke" } as const;

/** The tether's riding pulley, a ring in a ring; where it does not ride free, what it has run up against. */
export function drawTether(evaluation: Evaluation, project: (p: SiteVector) => WorldPoint): readonly Primitive[] {
  const { tether } = evaluation;
  if (tether === null) return [];
  const at = project(tether.pulleyAt);
  const stopped = tether.against === null ? null : `pulley up against ${AGAINST[tether.against]}`;
  return [
    {
      kind: "circle",
      at,
      radiusPx: 6.5,
      style: { stroke: "tether", fill: "paper", widthPx: 1.6 },
      title: `${tether.name}, ${stopped ?? "pulley riding free"}`,
    },
    { kind: "circle", at, radiusPx: 2.8, style: { stroke: "tether", widthPx: 1.4 } },
    ...(stopped === null
      ? []
      : [
          {
            kind: "text",
            at,
            text: `${tether.name}: ${stopped}`,
            align: "end",
            offsetPx: [-12, -6],
            sizePx: 12,
            weight: "strong",
            tone: "over",
            sign: "cross",
            halo: true,
            label: { priority: 89, keep: true },
          } as const,
        ]),
  ];
}
