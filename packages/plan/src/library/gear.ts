import type { Gear } from "../schema/gear.ts";

const common = { example: true } as const;

/** A small invented gear cache, described by kind and standard. Strengths are what such a standard asks for, or invented where it asks for none. */
export const EXAMPLE_GEAR: readonly Gear[] = [
  { ...common, id: "rope-12", kind: "rope", name: "Static rope 12.5 mm, polyester", standard: "NFPA 2500 G", strengthN: 40_000, strengthBasis: "breaking", massKg: null, diameterM: 0.0125, linearMassKgM: 0.105, staticStiffnessN: 95_000, dynamicStiffnessN: 170_000, lengthsM: [60, 60, 90, 90] },
  { ...common, id: "rope-11", kind: "rope", name: "Low-stretch rope 11 mm, nylon", standard: "EN 1891 A", strengthN: 30_000, strengthBasis: "breaking", massKg: null, diameterM: 0.011, linearMassKgM: 0.076, staticStiffnessN: 35_000, dynamicStiffnessN: 62_000, lengthsM: [45, 60, 60, 100] },
  { ...common, id: "rope-tag", kind: "rope", name: "Tagline rope 9.5 mm", standard: "NFPA 2500 T", strengthN: 20_000, strengthBasis: "breaking", massKg: null, diameterM: 0.0095, linearMassKgM: 0.056, staticStiffnessN: 28_000, dynamicStiffnessN: 50_000, lengthsM: [30, 30, 45, 45] },
  { ...common, id: "knot-eight", kind: "knot", name: "Figure-eight loop", efficiency: 0.6, tailM: 1.2, source: "0.60: default of the reference page for kernmantle; published tests scatter from 0.48 to 0.80" },
  { ...common, id: "connector-steel", kind: "connector", name: "Locking connector, steel", standard: "NFPA 2500 G", strengthN: 40_000, strengthBasis: "breaking", massKg: 0.27 },
  { ...common, id: "connector-light", kind: "connector", name: "Locking connector, aluminium", standard: "EN 12275 H / NFPA 2500 T", strengthN: 27_000, strengthBasis: "breaking", massKg: 0.09 },
  { ...common, id: "sheave-large", kind: "sheave", name: "Sheave, ball bearing, 60 mm", standard: "NFPA 2500 G", strengthN: 36_000, strengthBasis: "breaking", massKg: 0.55, efficiency: 0.93, diameterM: 0.06 },
  { ...common, id: "sheave-small", kind: "sheave", name: "Sheave, bushing, 38 mm", standard: "EN 12278", strengthN: 22_000, strengthBasis: "breaking", massKg: 0.25, efficiency: 0.8, diameterM: 0.038 },
  { ...common, id: "sling-60", kind: "sling", name: "Sewn sling 0.6 m, polyester", standard: "EN 795 B / EN 566", strengthN: 22_000, strengthBasis: "breaking", massKg: 0.12, lengthM: 0.6 },
  { ...common, id: "sling-bridle", kind: "sling", name: "Litter bridle leg, adjustable", standard: "NFPA 2500 G", strengthN: 22_000, strengthBasis: "breaking", massKg: 0.3, lengthM: 1.2 },
  { ...common, id: "brake-g", kind: "brake", name: "Self-locking brake for raising and lowering", standard: "NFPA 2500 G / EN 12841 C", strengthN: 22_000, strengthBasis: "breaking", massKg: 0.75, slipN: null },
  { ...common, id: "yoke-plate", kind: "yoke", name: "Rigging plate used as yoke", standard: "NFPA 2500 G", strengthN: 36_000, strengthBasis: "breaking", massKg: 0.4 },
  { ...common, id: "litter-basket", kind: "litter", name: "Basket litter", standard: "rated load by its maker", strengthN: 2_700, strengthBasis: "working", massKg: 16 },
];
