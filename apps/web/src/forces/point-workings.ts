import type { AerialForces, PointForce, Term, Working } from "@gantline/plan";

type Part = "compressionN" | "normalN" | "lateralN" | "resultantN" | "offPlaneRad";

const FORMULA: Readonly<Record<Part, string>> = {
  compressionN: "C = −F · axial: along the ladder, toward the pivot",
  normalN: "N = F · normal: square to the ladder in its vertical plane; below zero it bends the ladder down",
  lateralN: "L = F · lateral: level, to the right looking out",
  resultantN: "R = √(C² + N² + L²)",
  offPlaneRad: "α = arctan(L ÷ √(C² + N²))",
};

const force = (symbol: string, meaning: string, value: number): Term => ({ symbol, meaning, value, quantity: "force" });

/** How one part of what a rigging point feels was worked. */
export function pointWorking(point: PointForce, part: Part): Working {
  const { forceN, compressionN, normalN, lateralN } = point;
  const fromRopes: Term[] = [
    force("F east", "sum of the rope pulls on the point", forceN[0]),
    force("F north", "", forceN[1]),
    force("F up", "", forceN[2]),
  ];
  const fromParts: Term[] = [
    force("C", "compression", compressionN),
    force("N", "bending", normalN),
    force("L", "sideways", lateralN),
  ];
  return {
    formula: FORMULA[part],
    terms: part === "resultantN" || part === "offPlaneRad" ? fromParts : fromRopes,
    limitSource: "",
  };
}

type Use = AerialForces["utilisations"]["resultant"];

/** How one of the three utilisations was worked, against the maker's table. */
export function ratingWorking(use: Use, ratedTipLoadN: number | null, ratingReason: string, source: string): Working {
  const quantity = use.unit === "N" ? "force" : "moment";
  return {
    formula: `demand ÷ limit. ${use.reason}`,
    terms: [
      {
        symbol: "demand",
        meaning: use.stationM === null ? "from all rigging points" : "from all rigging points, where it is worst",
        value: use.demand,
        quantity,
      },
      ...(use.stationM === null
        ? []
        : [
            {
              symbol: "at",
              meaning: "along the ladder from the pivot",
              value: use.stationM,
              quantity: "length",
            } as const,
          ]),
      { symbol: "limit", meaning: "from the rated tip load", value: use.limit, quantity },
      {
        symbol: "R",
        meaning: `rated tip load at this pose. ${ratingReason}`,
        value: ratedTipLoadN,
        quantity: "force",
        source,
      },
    ],
    limitSource: source,
  };
}
