import type { Policy } from "../schema/policy.ts";

const DEG = Math.PI / 180;
const PLANNING = "Planning default, no source: set your department's own";

/** A starting point for a department's own policy. Every figure names where it comes from and can be changed in the plan. */
export const STARTING_POLICY: Policy = {
  name: "Starting policy: replace with your department's",
  tipBasis: "resultant",
  strengthFactor: { value: 10, source: "10:1 breaking strength to static force: common practice, no source" },
  structuralFactor: {
    value: 2,
    source: "2:1 on a structural rating: planning default, from memory of aerial device design practice",
  },
  closeRatio: { value: 0.9, source: PLANNING },
  offPlaneMaxRad: {
    value: 3 * DEG,
    source:
      "Planning limit: no side rating is published for ladders in general; ropes in line with the ladder is common practice",
  },
  shareMax: {
    value: 0.7,
    source: "70/30 is what trained operators were seen to keep in a training test; a planning limit, not a standard",
  },
  pairUnevenMax: { value: 1.4, source: PLANNING },
  ladderClearanceM: { value: 0.5, source: PLANNING },
  loadClearanceM: { value: 0.4, source: PLANNING },
  loadToLadderClearanceM: { value: 0.5, source: PLANNING },
  ropeClearanceM: { value: 0.15, source: PLANNING },
  tipMarginM: { value: 0.5, source: PLANNING },
  windMaxMS: {
    value: 8.94,
    source: "20 mph, 29 CFR 1926.1431(k)(8), used as a benchmark: hoisting of persons by crane",
  },
  slingAngleMinRad: { value: 30 * DEG, source: "Legs below 30° from horizontal not recommended: sling trade practice" },
  basketFactor: { value: 2, source: "Basket hitch, legs parallel: two legs carry; from memory of sling charts" },
  chokerFactor: { value: 0.75, source: "Choker hitch 0.75 of straight: from memory of sling charts" },
  personsMax: { value: 2, source: "Two-person load, 2.67 kN, NFPA 2500 (formerly 1983), from a secondary source" },
  pullPerPersonN: { value: 222, source: "50 lbf a rescuer, FEMA US&R lifting module, from a secondary source" },
  jackReachMin: {
    value: 0.96,
    source: "Short-set below 96 % of full jack reach: a purchaser's specification; the maker's manual decides",
  },
  stabilityFactor: {
    value: 1.5,
    source: "1½ × rated load on firm level ground, ANSI A92.2 §4.5.1 as quoted in a secondary source",
  },
  slopeMaxRad: { value: Math.atan(0.05), source: "5 % ground slope: planning default; the maker's manual decides" },
  attendantMassKg: { value: 100, source: "100 kg a person, metric convention (EN 1891 test mass)" },
  peakPersonN: {
    value: 6000,
    source:
      "6 kN, EN 353-2, as a test house's guide gives it; EN 12841 type A the same, from memory; 29 CFR 1926.502(d)(16) allows 8 kN (1,800 lbf) in a body harness, read in its state twin WAC 296-880-40020(3)",
  },
  peakStrengthFactor: {
    value: 2,
    source:
      "Safety factor of at least two of a complete personal fall arrest system, 29 CFR 1910.140(c)(13), as quoted",
  },
  peakRatingFactor: { value: 1, source: `A moment's peak counted in full against a working rating. ${PLANNING}` },
  peakBrakeN: {
    value: 12_000,
    source: "12 kN, EN 12841 type C, static strength held 3 min, from a secondary source",
  },
  peakSlipM: {
    value: 1,
    source:
      "1 m of slip allowed in the belay competence drop test (200 kg, 1 m drop on 3 m of rope), ASTM F2436, as cited in a secondary source",
  },
  brakeSlipN: { value: null, source: "Not set: each brake's own figure, from its maker, is wanted" },
};
