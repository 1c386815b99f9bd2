/** Upper end of each band (kV, inclusive) and the distance to keep, ft. Source: 29 CFR 1926.1408 Table A, as reprinted in a secondary source. */
const TABLE_A: readonly (readonly [upToKv: number, feet: number])[] = [
  [50, 10],
  [200, 15],
  [350, 20],
  [500, 25],
  [750, 35],
  [1000, 45],
];

const FOOT_M = 0.3048;

export interface PowerLineDistance {
  /** m; null: voltage not known, or above the tables. */
  readonly requiredM: number | null;
  readonly tableAM: number | null;
  readonly fireServiceM: number | null;
  readonly source: string;
}

/**
 * How far must ladder, load and ropes keep from a power line of this voltage (kV, nominal AC)?
 *
 * The larger of two rules: 29 CFR 1926.1408 Table A, and the fire-service rule of WAC 296-305-04510(4)(c): 10 ft to
 * 50 kV, and 0.4 in more for each kV above. Over 1,000 kV the owner of the line sets it: null.
 */
export function powerLineDistanceM(voltageKv: number | null): PowerLineDistance {
  if (voltageKv === null)
    return {
      requiredM: null,
      tableAM: null,
      fireServiceM: null,
      source: "Voltage not known: ask the owner of the line",
    };
  const band = TABLE_A.find(([upTo]) => voltageKv <= upTo);
  if (!band)
    return {
      requiredM: null,
      tableAM: null,
      fireServiceM: null,
      source: "Over 1,000 kV: set by the owner of the line or a registered engineer (29 CFR 1926.1408 Table A)",
    };
  const tableAM = band[1] * FOOT_M;
  const fireServiceM = (10 + (Math.max(0, voltageKv - 50) * 0.4) / 12) * FOOT_M;
  const source =
    tableAM >= fireServiceM ? "29 CFR 1926.1408 Table A" : "WAC 296-305-04510(4)(c): 10 ft, and 0.4 in per kV over 50";
  return { requiredM: Math.max(tableAM, fireServiceM), tableAM, fireServiceM, source };
}
