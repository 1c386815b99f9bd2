import { asSite, lerp, type SiteVector } from "@gantline/engine";
import type { Evaluation, Plan } from "@gantline/plan";
import type { Primitive } from "../primitives.ts";
import { shortened, type Write } from "../shared/write.ts";
import type { DrawnSection } from "./section-frame.ts";

/** Which power lines: those wholly beyond the plane, or those that pass through it or this side of it. */
type WireDepth = "beyond" | "near";

/** Power lines: where a wire passes through the plane, a ringed cross with its voltage and the distance to keep round it; elsewhere the wire as seen. */
export function drawPowerLines(
  plan: Plan,
  evaluation: Evaluation,
  frame: DrawnSection,
  write: Write,
  depth: WireDepth,
): readonly Primitive[] {
  return plan.scene.powerLines.flatMap((power): Primitive[] => {
    const wire = power.wire.map(asSite);
    if (wire.every((p) => frame.before(p) < 0) !== (depth === "beyond")) return [];
    const crossings = crossingsOf(wire, frame);
    const voltage = power.voltageKv === null ? "voltage unknown" : write(power.voltageKv, "voltage");
    const keep =
      evaluation.clearances.find((c) => c.kind === "power" && c.id.endsWith(`/${power.id}`))?.requiredM ?? null;
    const before = wire.reduce((sum, p) => sum + frame.before(p), 0) > 0;
    const seen: Primitive = {
      kind: "path",
      points: wire.map(frame.toSection),
      closed: false,
      style: { stroke: "hazard", widthPx: crossings.length > 0 ? 0.6 : 1, dash: "chain" },
      title: `${power.name}, ${voltage}, as seen`,
    };
    if (crossings.length === 0) {
      const nearest = [...wire].sort((a, b) => Math.abs(frame.toSection(a)[0]) - Math.abs(frame.toSection(b)[0]))[0];
      if (!nearest) return [];
      const text = `${shortened(power.name, 34)}, ${voltage}, ${before ? "this side of" : "beyond"} the section`;
      return [
        seen,
        {
          kind: "text",
          at: frame.toSection(nearest),
          text,
          align: "middle",
          offsetPx: [0, -7],
          sizePx: 12,
          tone: "hazard",
          halo: true,
          label: { priority: 30 },
        },
      ];
    }
    return [
      seen,
      ...crossings.flatMap((at): Primitive[] => [
        ...(keep === null
          ? []
          : [
              {
                kind: "circle",
                at: frame.toSection(at),
                radiusM: keep,
                style: { stroke: "hazard", fill: "hazard", fillOpacity: 0.06, widthPx: 1, dash: "dashed" },
                title: `Keep ${write(keep, "length")} from ${power.name}`,
              } as const,
            ]),
        {
          kind: "circle",
          at: frame.toSection(at),
          radiusPx: 6.5,
          style: { stroke: "hazard", fill: "paper", widthPx: 1.8 },
          title: power.name,
        },
        { kind: "mark", at: frame.toSection(at), shape: "cross", sizePx: 9, style: { stroke: "hazard", widthPx: 1.8 } },
        {
          kind: "text",
          at: frame.toSection(at),
          text: `Live wire, ${voltage}, ${write(at[2], "length")} up`,
          align: "middle",
          offsetPx: [0, -14],
          sizePx: 12,
          weight: "strong",
          tone: "hazard",
          halo: true,
          label: { priority: 70, keep: true },
        },
        ...(keep === null
          ? []
          : [
              {
                kind: "text",
                at: frame.toSection(at),
                text: `keep ${write(keep, "length")} away`,
                align: "middle",
                offsetPx: [0, 22],
                sizePx: 11,
                tone: "hazard",
                halo: true,
                label: { priority: 40 },
              } as const,
            ]),
      ]),
    ];
  });
}

/** Where a wire passes through the plane. */
function crossingsOf(wire: readonly SiteVector[], frame: DrawnSection): readonly SiteVector[] {
  return wire.slice(1).flatMap((q, i) => {
    const p = wire[i] as SiteVector;
    const [a, b] = [frame.before(p), frame.before(q)];
    return a > 0 === b > 0 ? [] : [lerp(p, q, a / (a - b))];
  });
}
