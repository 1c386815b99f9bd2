const number = (description: string, bounds: Readonly<Record<string, number>> = {}) => ({
  type: "number",
  description,
  ...bounds,
});
const triple = (description: string) => ({
  type: "array",
  description,
  items: { type: "number" },
  minItems: 3,
  maxItems: 3,
});
const object = (properties: Readonly<Record<string, unknown>>, required: readonly string[]) => ({
  type: "object",
  properties,
  required,
  additionalProperties: false,
});

/**
 * JSON Schema (draft 2020-12) of what `gantline solve` reads. It says the form; what a schema cannot say (that names in
 * `through` are nodes, that there is one efficiency for each inner node) is said by the reader.
 */
export function networkJsonSchema(): Record<string, unknown> {
  const node = object(
    {
      position: triple("Where it is, or for a free node where the search begins: east, north, up, m"),
      free: { type: "boolean", description: "Left out: fixed" },
      massKg: number("Left out: 0", { minimum: 0 }),
      forceN: triple("From outside the ropes, besides weight: east, north, up, N"),
    },
    ["position"],
  );
  const line = {
    ...object(
      {
        through: {
          type: "array",
          description: "Names of nodes in order; each inner one is a sheave",
          items: { type: "string" },
          minItems: 2,
        },
        lengthM: number("Unstretched length, m; with axialStiffnessN", { exclusiveMinimum: 0 }),
        axialStiffnessN: number("EA, N", { exclusiveMinimum: 0 }),
        tensionN: number("Tension at the first node, N; instead of a length", { minimum: 0 }),
        efficiency: {
          type: "array",
          description: "Of each inner sheave, quoted for a 180° wrap; left out: 1",
          items: { type: "number", exclusiveMinimum: 0, maximum: 1 },
        },
        travel: {
          enum: ["toEnd", "toStart", "none"],
          description: "Which way the rope runs; none is frictionless, as is leaving it out",
        },
        sag: {
          type: "boolean",
          description: "Hang in a catenary: a line through two nodes, with linearMassKgM above 0; left out: false",
        },
        linearMassKgM: number("Rope mass, kg/m; left out: 0", { minimum: 0 }),
      },
      ["through"],
    ),
    oneOf: [
      { required: ["lengthM", "axialStiffnessN"], not: { required: ["tensionN"] } },
      { required: ["tensionN"], not: { required: ["lengthM"] } },
    ],
  };
  const network = object(
    {
      nodes: { type: "object", additionalProperties: node },
      lines: { type: "object", additionalProperties: line },
      gravityMS2: number("Down, m/s²; left out: 9.80665", { minimum: 0 }),
    },
    ["nodes", "lines"],
  );
  return {
    $schema: "https://json-schema.org/draft/2020-12/schema",
    title: "Rope network, or a list of them",
    anyOf: [{ $ref: "#/$defs/network" }, { type: "array", items: { $ref: "#/$defs/network" } }],
    $defs: { network },
  };
}
