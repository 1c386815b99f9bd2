import type { AerialDevice, AerialPlace, RiggingPoint } from "./device.ts";

/** Invented devices for the tests of this folder; no real machine. */
export const exampleLadder: AerialDevice = {
  kind: "ladder",
  pivotHeightM: 2.5,
  pivotSetbackM: 0.6,
  lengthMinM: 10,
  lengthMaxM: 30,
  elevationMinRad: -0.15,
  elevationMaxRad: 1.36,
  beamWidthM: 1,
  beamDepthM: 0.7,
  platform: null,
  outline: { frontM: 7, rearM: 4, leftM: 1.25, rightM: 1.25, heightM: 3.5 },
  jacks: [
    { id: "fl", name: "front left", forwardM: 3, rightM: -2.4 },
    { id: "fr", name: "front right", forwardM: 3, rightM: 2.4 },
    { id: "rl", name: "rear left", forwardM: -2, rightM: -2.4 },
    { id: "rr", name: "rear right", forwardM: -2, rightM: 2.4 },
  ],
  riggingPoints: [],
  tipRating: { source: "invented", rows: [] },
  sections: [
    { lengthM: 9, massKg: 1100, bendingStiffnessNm2: 4e7 },
    { lengthM: 8.6, massKg: 700, bendingStiffnessNm2: 2.2e7 },
    { lengthM: 8.3, massKg: 450, bendingStiffnessNm2: 1.1e7 },
    { lengthM: 8, massKg: 300, bendingStiffnessNm2: 5e6 },
  ],
  massKg: 20000,
};

export const examplePlatform: AerialDevice = {
  ...exampleLadder,
  kind: "platform",
  pivotSetbackM: -0.4,
  platform: { backM: 0.3, forwardM: 2, widthM: 2.2, floorDropM: 0.4, railHeightM: 1.1, ratedLoadForwardM: 0.9 },
};

export const examplePlace: AerialPlace = { turntableX: 3, turntableY: -2, groundZM: 0.5, headingRad: 0.4 };

export const examplePoint: RiggingPoint = {
  id: "p",
  name: "example point",
  on: "ladder",
  alongM: 0,
  lateralM: 0,
  dropM: 0,
  ratingN: null,
  ratingBasis: null,
  ratingSource: "invented",
  structural: true,
};
