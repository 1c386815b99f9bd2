import type { Device } from "../schema/aerial.ts";

const DEG = Math.PI / 180;
const INVENTED = "Invented for the example; use the maker's plate and manual";

/** Rating rows from a grid: one line per elevation band, one value (kN) per length band; null where none is given. */
function ratingRows(elevationsDeg: readonly number[], lengthsM: readonly number[], valuesKn: readonly (readonly (number | null)[])[]): Device["tipRating"]["rows"] {
  return valuesKn.flatMap((row, i) =>
    row.map((value, j) => ({
      elevationMinRad: (elevationsDeg[i] ?? 0) * DEG,
      elevationMaxRad: (elevationsDeg[i + 1] ?? 0) * DEG,
      lengthMinM: lengthsM[j] ?? 0,
      lengthMaxM: lengthsM[j + 1] ?? 0,
      ratedTipLoadN: value === null ? null : value * 1000,
    })),
  );
}

type Anchor = Device["anchors"][number];

const anchor = (id: string, name: string, forwardM: number, rightM: number, upM: number, ratingN: number | null): Anchor => ({
  id,
  name,
  forwardM,
  rightM,
  upM,
  ratingN,
  ratingBasis: ratingN === null ? null : "working",
  ratingSource: INVENTED,
});

/** Low points on the frame: four round the turntable, a pair on each side and at each end, one at every jack beam. */
function frameAnchors(halfWidthM: number, spreadM: number, jackForwardM: number, jackRearM: number, frontM: number, rearM: number): Anchor[] {
  return [
    anchor("turntable-1", "Turntable base, front left eye", 0.32, -0.32, 1.2, 9000),
    anchor("turntable-2", "Turntable base, front right eye", 0.32, 0.32, 1.2, 9000),
    anchor("turntable-3", "Turntable base, rear right eye", -0.32, 0.32, 1.2, 9000),
    anchor("turntable-4", "Turntable base, rear left eye", -0.32, -0.32, 1.2, 9000),
    anchor("left-low-1", "Frame, left side, forward eye", 0.32, -halfWidthM, 0.75, 9000),
    anchor("left-low-2", "Frame, left side, rear eye", -0.32, -halfWidthM, 0.75, 9000),
    anchor("right-low-1", "Frame, right side, forward eye", 0.32, halfWidthM, 0.75, 9000),
    anchor("right-low-2", "Frame, right side, rear eye", -0.32, halfWidthM, 0.75, 9000),
    anchor("rear-low-1", "Frame, rear, left eye", -rearM, -0.32, 0.75, 9000),
    anchor("rear-low-2", "Frame, rear, right eye", -rearM, 0.32, 0.75, 9000),
    anchor("front-low-1", "Frame, front, left eye", frontM, -0.4, 0.7, 9000),
    anchor("front-low-2", "Frame, front, right eye", frontM, 0.4, 0.7, 9000),
    anchor("jack-front-left", "Jack beam, front left", jackForwardM, -spreadM + 0.35, 0.55, 9000),
    anchor("jack-front-right", "Jack beam, front right", jackForwardM, spreadM - 0.35, 0.55, 9000),
    anchor("jack-rear-left", "Jack beam, rear left", jackRearM, -spreadM + 0.35, 0.55, 9000),
    anchor("jack-rear-right", "Jack beam, rear right", jackRearM, spreadM - 0.35, 0.55, 9000),
    anchor("step-left", "Body step, left", -1.6, -halfWidthM, 1.1, null),
  ];
}

const jacks = (forwardM: number, rearM: number, spreadM: number): Device["jacks"] => [
  { id: "front-left", name: "Front left", forwardM, rightM: -spreadM, padAreaM2: 0.36, maxForceN: null },
  { id: "front-right", name: "Front right", forwardM, rightM: spreadM, padAreaM2: 0.36, maxForceN: null },
  { id: "rear-right", name: "Rear right", forwardM: rearM, rightM: spreadM, padAreaM2: 0.36, maxForceN: null },
  { id: "rear-left", name: "Rear left", forwardM: rearM, rightM: -spreadM, padAreaM2: 0.36, maxForceN: null },
];

const ladderPoints = (lateralM: number): Device["riggingPoints"] => [
  { id: "tip-left", name: "Tip, left eye", on: "ladder", alongM: 0.3, lateralM: -lateralM, dropM: 0.2, ratingN: 4400, ratingBasis: "working", ratingSource: INVENTED, structural: true },
  { id: "tip-right", name: "Tip, right eye", on: "ladder", alongM: 0.3, lateralM, dropM: 0.2, ratingN: 4400, ratingBasis: "working", ratingSource: INVENTED, structural: true },
  { id: "rung-2", name: "Second rung, middle", on: "ladder", alongM: 0.65, lateralM: 0, dropM: 0, ratingN: null, ratingBasis: null, ratingSource: "", structural: true },
  { id: "tip-casting", name: "Tip casting, bolted", on: "ladder", alongM: 0, lateralM: 0, dropM: 0.1, ratingN: null, ratingBasis: null, ratingSource: INVENTED, structural: false },
];

const ELEVATIONS = [0, 30, 45, 60, 76];

/** Three invented vehicles. Believable in proportion, real in nothing. */
export const EXAMPLE_DEVICES: readonly Device[] = [
  {
    id: "example-ladder-23",
    name: "Example ladder, 23 m",
    example: true,
    source: INVENTED,
    kind: "ladder",
    pivotHeightM: 2.35,
    pivotSetbackM: 0.5,
    lengthMinM: 8.5,
    lengthMaxM: 22,
    elevationMinRad: -5 * DEG,
    elevationMaxRad: 76 * DEG,
    beamWidthM: 0.9,
    beamDepthM: 0.6,
    platform: null,
    outline: { frontM: 7.2, rearM: 2.6, leftM: 1.25, rightM: 1.25, heightM: 3.3 },
    jacks: jacks(2.1, -1.9, 2.2),
    anchors: frameAnchors(1.15, 2.2, 2.1, -1.9, 7.2, 2.6),
    riggingPoints: ladderPoints(0.32),
    tipRating: {
      source: INVENTED,
      rows: ratingRows(ELEVATIONS, [8.5, 14, 18, 22], [
        [3.3, 2.2, 1.6],
        [4.4, 3.3, 2.2],
        [4.9, 4.4, 3.3],
        [5.3, 4.4, 4.4],
      ]),
    },
    sideRatingN: null,
    sideRatingSource: "",
    maxWindMS: 12.5,
    maxWindSource: INVENTED,
    maxSlopeRad: 5 * DEG,
    sections: [
      { lengthM: 8.5, massKg: 900, bendingStiffnessNm2: 60e6 },
      { lengthM: 8.2, massKg: 600, bendingStiffnessNm2: 30e6 },
      { lengthM: 7.9, massKg: 380, bendingStiffnessNm2: 14e6 },
    ],
    massKg: 15_500,
  },
  {
    id: "example-ladder-30",
    name: "Example ladder, 30 m",
    example: true,
    source: INVENTED,
    kind: "ladder",
    pivotHeightM: 2.45,
    pivotSetbackM: 0.6,
    lengthMinM: 9.8,
    lengthMaxM: 29,
    elevationMinRad: -7 * DEG,
    elevationMaxRad: 76 * DEG,
    beamWidthM: 0.95,
    beamDepthM: 0.65,
    platform: null,
    outline: { frontM: 8.1, rearM: 3.2, leftM: 1.25, rightM: 1.25, heightM: 3.5 },
    jacks: jacks(2.6, -2.3, 2.45),
    anchors: frameAnchors(1.15, 2.45, 2.6, -2.3, 8.1, 3.2),
    riggingPoints: ladderPoints(0.32),
    tipRating: {
      source: INVENTED,
      rows: ratingRows(ELEVATIONS, [9.8, 18, 24, 29], [
        [2.2, 1.6, 1.1],
        [3.3, 2.7, 2.2],
        [4.4, 3.8, 3.3],
        [5.3, 4.9, 4.4],
      ]),
    },
    sideRatingN: null,
    sideRatingSource: "",
    maxWindMS: 12.5,
    maxWindSource: INVENTED,
    maxSlopeRad: 5 * DEG,
    sections: [
      { lengthM: 9.8, massKg: 1100, bendingStiffnessNm2: 75e6 },
      { lengthM: 9.4, massKg: 760, bendingStiffnessNm2: 42e6 },
      { lengthM: 9.0, massKg: 500, bendingStiffnessNm2: 22e6 },
      { lengthM: 8.6, massKg: 320, bendingStiffnessNm2: 10e6 },
    ],
    massKg: 19_800,
  },
  {
    id: "example-platform-30",
    name: "Example platform ladder, 30 m",
    example: true,
    source: INVENTED,
    kind: "platform",
    pivotHeightM: 2.6,
    pivotSetbackM: 0.7,
    lengthMinM: 10.5,
    lengthMaxM: 28,
    elevationMinRad: -5 * DEG,
    elevationMaxRad: 75 * DEG,
    beamWidthM: 1.1,
    beamDepthM: 0.8,
    platform: { backM: 0.2, forwardM: 1.7, widthM: 2.1, floorDropM: 0.4, railHeightM: 1.1, ratedLoadForwardM: 0.9 },
    outline: { frontM: 8.6, rearM: 3.8, leftM: 1.25, rightM: 1.25, heightM: 3.7 },
    jacks: jacks(2.9, -2.6, 2.6),
    anchors: frameAnchors(1.15, 2.6, 2.9, -2.6, 8.6, 3.8),
    riggingPoints: [
      { id: "rail-left", name: "Under the platform, left beam eye", on: "platform", alongM: 1.3, lateralM: -0.32, dropM: 0.5, ratingN: 4400, ratingBasis: "working", ratingSource: INVENTED, structural: true },
      { id: "rail-right", name: "Under the platform, right beam eye", on: "platform", alongM: 1.3, lateralM: 0.32, dropM: 0.5, ratingN: 4400, ratingBasis: "working", ratingSource: INVENTED, structural: true },
      { id: "top-rail", name: "Platform top rail", on: "platform", alongM: 1.7, lateralM: 0, dropM: -0.7, ratingN: null, ratingBasis: null, ratingSource: INVENTED, structural: false },
      { id: "tip-left", name: "Ladder tip, left eye", on: "ladder", alongM: 0.4, lateralM: -0.35, dropM: 0.3, ratingN: 4400, ratingBasis: "working", ratingSource: INVENTED, structural: true },
      { id: "tip-right", name: "Ladder tip, right eye", on: "ladder", alongM: 0.4, lateralM: 0.35, dropM: 0.3, ratingN: 4400, ratingBasis: "working", ratingSource: INVENTED, structural: true },
    ],
    tipRating: {
      source: INVENTED,
      rows: ratingRows([0, 30, 45, 60, 75], [10.5, 18, 24, 28], [
        [4.4, 3.3, null],
        [4.4, 4.4, 3.3],
        [5.3, 4.4, 4.4],
        [5.3, 5.3, 4.4],
      ]),
    },
    sideRatingN: 500,
    sideRatingSource: INVENTED,
    maxWindMS: 12.5,
    maxWindSource: INVENTED,
    maxSlopeRad: 5 * DEG,
    sections: null,
    massKg: 27_500,
  },
];
