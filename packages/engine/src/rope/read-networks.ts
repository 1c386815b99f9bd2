import type { InputProblem } from "../base/outcome.ts";
import type { Network } from "./network.ts";

export type NetworksRead =
  | {
      readonly ok: true;
      readonly networks: readonly Network[] /** Whether a list was given rather than one network. */;
      readonly many: boolean;
    }
  | { readonly ok: false; readonly problems: readonly InputProblem[] };

/**
 * Reads one network, or a list of networks, from parsed JSON.
 *
 * Strict: every field must be known, every number finite and in bounds, every name in `through` a node. All problems are
 * reported, each with the path of its field (`lines.M.through[2]`; in a list `[3].lines.M.through[2]`).
 * What may be left out, and what it then is: `free` false, `massKg` 0, `forceN` [0, 0, 0], `efficiency` 1 at each sheave,
 * `travel` "none", `linearMassKgM` 0, `sag` false, `gravityMS2` 9.80665. A line held by a tension may give its `axialStiffnessN` too;
 * then its unstretched length is worked out.
 */
export function readNetworks(json: unknown): NetworksRead {
  const problems: InputProblem[] = [];
  const many = Array.isArray(json);
  const networks: unknown[] = many ? json : [json];
  for (const [i, network] of networks.entries()) checkNetwork(network, many ? `[${i}]` : "", problems);
  if (problems.length > 0) return { ok: false, problems };
  return { ok: true, networks: networks as Network[], many };
}

type Fields = Readonly<Record<string, unknown>>;

const TRAVELS = ["toEnd", "toStart", "none"];

function checkNetwork(network: unknown, path: string, problems: InputProblem[]): void {
  if (!isObject(network)) {
    problems.push({ path: path || "(whole input)", got: shown(network), expected: "an object with nodes and lines" });
    return;
  }
  const at = (field: string) => (path ? `${path}.${field}` : field);
  refuseUnknown(network, ["nodes", "lines", "gravityMS2"], path, problems);
  checkNumber(network, "gravityMS2", at, problems, { least: 0, unit: "m/s²" });
  const nodes = namedObjects(network, "nodes", at, problems);
  for (const [name, node] of Object.entries(nodes)) checkNode(node, (field) => at(`nodes.${name}${field}`), problems);
  for (const [name, line] of Object.entries(namedObjects(network, "lines", at, problems))) {
    checkLine(line, nodes, (field) => at(`lines.${name}${field}`), problems);
  }
}

type At = (field: string) => string;

function checkNode(node: Fields, path: At, problems: InputProblem[]): void {
  const at: At = (field) => path(`.${field}`);
  refuseUnknown(node, ["position", "free", "massKg", "forceN"], path(""), problems);
  checkTriple(node, "position", at, problems, "m", true);
  if (node.free !== undefined && typeof node.free !== "boolean") {
    problems.push({ path: at("free"), got: shown(node.free), expected: "true or false" });
  }
  checkNumber(node, "massKg", at, problems, { least: 0, unit: "kg" });
  checkTriple(node, "forceN", at, problems, "N", false);
}

function checkLine(line: Fields, nodes: Fields, path: At, problems: InputProblem[]): void {
  const at: At = (field) => path(`.${field}`);
  const known = ["through", "lengthM", "axialStiffnessN", "tensionN", "efficiency", "travel", "linearMassKgM", "sag"];
  refuseUnknown(line, known, path(""), problems);
  const places = checkThrough(line.through, nodes, at("through"), problems);

  checkNumber(line, "lengthM", at, problems, { above: 0, unit: "m" });
  checkNumber(line, "axialStiffnessN", at, problems, { above: 0, unit: "N" });
  checkNumber(line, "tensionN", at, problems, { least: 0, unit: "N" });
  checkNumber(line, "linearMassKgM", at, problems, { least: 0, unit: "kg/m" });
  const byLength = line.lengthM !== undefined;
  if (byLength === (line.tensionN !== undefined)) {
    const got = byLength ? "both lengthM and tensionN" : "neither lengthM nor tensionN";
    problems.push({ path: path(""), got, expected: "lengthM with axialStiffnessN, or tensionN" });
  } else if (byLength && line.axialStiffnessN === undefined) {
    problems.push({ path: at("axialStiffnessN"), got: "nothing", expected: "a number above 0", unit: "N" });
  }
  if (line.travel !== undefined && !TRAVELS.includes(line.travel as string)) {
    problems.push({ path: at("travel"), got: shown(line.travel), expected: `one of ${TRAVELS.join(", ")}` });
  }
  if (line.sag !== undefined) checkSag(line, places, at, problems);
  if (line.efficiency !== undefined) checkEfficiency(line.efficiency, places, at("efficiency"), problems);
}

/** Checks the nodes a line runs through; returns how many there are, 0 if that cannot be told. */
function checkThrough(through: unknown, nodes: Fields, path: string, problems: InputProblem[]): number {
  if (!Array.isArray(through)) {
    problems.push({ path, got: shown(through), expected: "a list of two or more names of nodes" });
    return 0;
  }
  if (through.length < 2) problems.push({ path, got: shown(through), expected: "two or more names of nodes" });
  through.forEach((name: unknown, i) => {
    const here = `${path}[${i}]`;
    if (typeof name !== "string" || !Object.hasOwn(nodes, name)) {
      problems.push({ path: here, got: shown(name), expected: "the name of a node" });
    } else if (i > 0 && name === through[i - 1]) {
      problems.push({ path: here, got: shown(name), expected: "another node than the one before" });
    }
  });
  return through.length;
}

/** A line can hang in a catenary only between two nodes, and only if its rope has weight. */
function checkSag(line: Fields, places: number, at: At, problems: InputProblem[]): void {
  if (typeof line.sag !== "boolean") {
    problems.push({ path: at("sag"), got: shown(line.sag), expected: "true or false" });
  } else if (line.sag) {
    if (places > 2) {
      problems.push({
        path: at("sag"),
        got: `true for ${places} nodes`,
        expected: "true only for a line through two nodes",
      });
    }
    if (line.linearMassKgM === undefined || line.linearMassKgM === 0) {
      const got = shown(line.linearMassKgM);
      problems.push({
        path: at("linearMassKgM"),
        got,
        expected: "a number above 0, for a line that sags",
        unit: "kg/m",
      });
    }
  }
}

function checkEfficiency(efficiency: unknown, places: number, path: string, problems: InputProblem[]): void {
  const sheaves = Math.max(0, places - 2);
  if (!Array.isArray(efficiency) || (places > 0 && efficiency.length !== sheaves)) {
    const expected = places > 0 ? `a list of ${sheaves}, one for each inner node` : "a list, one for each inner node";
    problems.push({ path, got: shown(efficiency), expected });
    return;
  }
  efficiency.forEach((value: unknown, i) => {
    if (isFiniteNumber(value) && value > 0 && value <= 1) return;
    problems.push({
      path: `${path}[${i}]`,
      got: shown(value),
      expected: "a number above 0 and up to 1, for a 180° wrap",
    });
  });
}

/** The objects under `field` that are objects indeed, by name. */
function namedObjects(
  parent: Fields,
  field: string,
  at: At,
  problems: InputProblem[],
): Readonly<Record<string, Fields>> {
  const group = parent[field];
  if (!isObject(group)) {
    problems.push({ path: at(field), got: shown(group), expected: `an object: the ${field} by name` });
    return {};
  }
  const sound: [string, Fields][] = [];
  for (const [name, value] of Object.entries(group)) {
    if (name === "__proto__")
      problems.push({ path: at(`${field}.${name}`), got: shown(name), expected: "another name" });
    else if (isObject(value)) sound.push([name, value]);
    else problems.push({ path: at(`${field}.${name}`), got: shown(value), expected: "an object" });
  }
  return Object.fromEntries(sound);
}

function refuseUnknown(object: Fields, known: readonly string[], path: string, problems: InputProblem[]): void {
  for (const field of Object.keys(object)) {
    if (known.includes(field)) continue;
    problems.push({
      path: path ? `${path}.${field}` : field,
      got: "an unknown field",
      expected: `one of ${known.join(", ")}`,
    });
  }
}

/** A number that may be left out. */
function checkNumber(
  object: Fields,
  field: string,
  at: At,
  problems: InputProblem[],
  bound: { readonly least?: number; readonly above?: number; readonly unit: string },
): void {
  const value = object[field];
  if (value === undefined) return;
  const { least = -Infinity, above = -Infinity, unit } = bound;
  if (isFiniteNumber(value) && value >= least && value > above) return;
  const expected = bound.above !== undefined ? `a number above ${above}` : `a number, ${least} or more`;
  problems.push({ path: at(field), got: shown(value), expected, unit });
}

function checkTriple(
  object: Fields,
  field: string,
  at: At,
  problems: InputProblem[],
  unit: string,
  needed: boolean,
): void {
  const value = object[field];
  if (value === undefined && !needed) return;
  if (!Array.isArray(value) || value.length !== 3) {
    problems.push({ path: at(field), got: shown(value), expected: "three numbers: east, north, up", unit });
    return;
  }
  value.forEach((component: unknown, i) => {
    if (!isFiniteNumber(component)) {
      problems.push({ path: `${at(field)}[${i}]`, got: shown(component), expected: "a number", unit });
    }
  });
}

const isObject = (value: unknown): value is Fields =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const isFiniteNumber = (value: unknown): value is number => typeof value === "number" && Number.isFinite(value);

/** What was got, in a few words. */
function shown(value: unknown): string {
  if (value === undefined) return "nothing";
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (isObject(value)) return "an object";
  if (typeof value === "string") return JSON.stringify(value.length > 40 ? `${value.slice(0, 40)}…` : value);
  return String(value);
}
