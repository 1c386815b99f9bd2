import {
  type Evaluation,
  type Plan,
  type RunningLine,
  ropeNeedTerms,
  type Term,
  type TravelCase,
  type Working,
} from "@gantline/plan";

/** How the tension of one part of a rope was worked: from equilibrium where it leaves the load, from the sheave before it elsewhere. */
export function tensionWorking(
  plan: Plan,
  evaluation: Evaluation,
  line: RunningLine,
  segment: number,
  travel: TravelCase,
): Working {
  return segment === 0 ? fromLoad(plan, evaluation, line) : pastSheave(plan, line, segment, travel);
}

function fromLoad(plan: Plan, { load }: Evaluation, line: RunningLine): Working {
  const main = plan.rig.mainLines.find((one) => one.id === line.id);
  const tagline = plan.rig.taglines.find((one) => one.id === line.id);
  const held =
    plan.rig.load.drive === "position" ? "the load held where it is wanted" : "the ropes at their measured lengths";
  const terms: Term[] = [
    {
      symbol: "W",
      meaning: "weight of everything that hangs",
      value: load.weightN,
      quantity: "force",
      source: "load parts × 9.80665 m/s²",
    },
    {
      symbol: "W_r",
      meaning: "weight of rope that hangs there with it: half of each part that ends at the yoke",
      value: load.ropesN,
      quantity: "force",
      source: "mass per metre of each rope, its length as it runs, × 9.80665 m/s²",
    },
    {
      symbol: "F_w",
      meaning: "wind on the load",
      value: load.windN === null ? null : Math.hypot(...load.windN),
      quantity: "force",
      source: "0.613 v² × drag area",
    },
  ];
  if (main !== undefined)
    terms.push({
      symbol: "s",
      meaning: "share of the load on this main line",
      value: main.share,
      quantity: "ratio",
      source: "the plan",
    });
  if (tagline?.drive === "tension")
    terms.push({
      symbol: "T",
      meaning: "steady pull asked of the crew",
      value: tagline.tensionN,
      quantity: "force",
      source: "the plan",
    });
  return {
    formula:
      tagline?.drive === "tension"
        ? "T as asked for"
        : `Σ (rope pulls) + W + W_r + F_w = 0 at the yoke, ${held}; no rope pushes`,
    terms,
    limitSource: "",
  };
}

/** Over a sheave the tension changes by its efficiency, quoted for half a turn, taken to the part of a half turn it wraps. */
function pastSheave(plan: Plan, line: RunningLine, segment: number, travel: TravelCase): Working {
  const [before, at, after] = [line.nodes[segment - 1], line.nodes[segment], line.nodes[segment + 1]];
  const main = plan.rig.mainLines.find((one) => one.id === line.id);
  const sheaveId = segment === 1 ? main?.tip.sheave : main?.redirects[segment - 2]?.sheave;
  const sheave = plan.gear.find((one) => one.id === sheaveId);
  const wrapRad = before && at && after ? turned(before.at, at.at, after.at) : null;
  return {
    formula:
      travel === "raise"
        ? "T = T₋ ÷ η^(θ/π), the rope running from load to brake"
        : "T = T₋ × η^(θ/π), the rope running from brake to load",
    terms: [
      {
        symbol: "T₋",
        meaning: `before ${at?.name ?? "the sheave"}, on the load's side`,
        value: line.tensionsN[travel][segment - 1] ?? null,
        quantity: "force",
      },
      {
        symbol: "η",
        meaning: sheave?.name ?? "sheave",
        value: sheave?.kind === "sheave" ? sheave.efficiency : null,
        quantity: "ratio",
        source: "efficiency for a half turn, from the gear cache",
      },
      { symbol: "θ", meaning: "turned over the sheave", value: wrapRad, quantity: "angle" },
    ],
    limitSource: "",
  };
}

/** How the rope needed for a line was worked. */
export function ropeWorking(line: RunningLine): Working {
  return { formula: "sum of the parts", terms: ropeNeedTerms(line), limitSource: "" };
}

type Point = readonly [number, number, number];

/** Angle between the way to a point and the way on from it, rad. */
function turned(before: Point, at: Point, after: Point): number {
  const to = [at[0] - before[0], at[1] - before[1], at[2] - before[2]] as const;
  const on = [after[0] - at[0], after[1] - at[1], after[2] - at[2]] as const;
  const across = Math.hypot(
    to[1] * on[2] - to[2] * on[1],
    to[2] * on[0] - to[0] * on[2],
    to[0] * on[1] - to[1] * on[0],
  );
  return Math.atan2(across, to[0] * on[0] + to[1] * on[1] + to[2] * on[2]);
}
