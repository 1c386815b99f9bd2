/** Which module may import which. Why: docs/decisions/0001-house-and-data-flow.md. Checked by `npm run boundaries`. */

/** From left to right: each imports leftwards only. Neighbours on one step do not import each other. */
const ENGINE = [["base"], ["numerics"], ["scene"], ["aerial"], ["rope"], ["solve"], ["stand", "sample"]];
const HOUSE = ["packages/engine", "packages/plan", "packages/drawing", "packages/runtime", "apps"];
const TEST = "\\.test\\.tsx?$";
const ORACLES = "node_modules/(mujoco-js|mathjs|ml-matrix|odex|polygon-clipping)/";

const oneOf = (names) => `(${names.join("|")})`;

const engineFolders = ENGINE.flatMap((step, i) => {
  const rightwards = ENGINE.slice(i + 1).flat();
  return step.map((folder) => ({
    name: `engine-${folder}`,
    comment: `packages/engine/src/${folder} imports leftwards only: ${ENGINE.slice(0, i).flat().join(", ") || "nothing"}.`,
    severity: "error",
    from: { path: `^packages/engine/src/${folder}/` },
    to: {
      path: `^packages/engine/src/${oneOf([...rightwards, ...step.filter((name) => name !== folder), "index\\.ts$"])}`,
    },
  }));
});

const house = HOUSE.slice(0, -1).map((place, i) => ({
  name: `house-${place.split("/")[1]}`,
  comment: `${place} imports leftwards only: ${HOUSE.slice(0, i).join(", ") || "nothing"}.`,
  severity: "error",
  from: { path: `^${place}/` },
  to: { path: `^${oneOf(HOUSE.slice(i + 1))}/` },
}));

module.exports = {
  forbidden: [
    ...engineFolders,
    ...house,
    {
      name: "engine-folder-unknown",
      comment: "A new folder of the engine needs its place in the order in .dependency-cruiser.cjs.",
      severity: "error",
      from: {},
      to: { path: `^packages/engine/src/(?!${oneOf(ENGINE.flat())}/)[^/]+/` },
    },
    {
      name: "engine-alone",
      comment: "The engine imports nothing from Node or the registry, but for one small index of boxes.",
      severity: "error",
      from: { path: "^packages/engine/src/", pathNot: TEST },
      to: { pathNot: "^packages/engine/src/|^node_modules/(flatbush|flatqueue)/" },
    },
    {
      name: "runs-in-a-browser",
      comment: "Plan and drawing run in a browser: nothing from Node.",
      severity: "error",
      from: { path: "^packages/(plan|drawing)/src/", pathNot: TEST },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "through-the-front-door",
      comment: "A package is imported by its name, at its root.",
      severity: "error",
      from: { path: "^(packages/[^/]+|apps/[^/]+)/" },
      to: { path: "^packages/[^/]+/(?!src/index\\.ts$)", pathNot: "^$1/" },
    },
    {
      name: "apps-apart",
      comment: "Apps do not import each other.",
      severity: "error",
      from: { path: "^(apps/[^/]+)/" },
      to: { path: "^apps/", pathNot: "^$1/" },
    },
    {
      name: "react-in-web-only",
      comment: "apps/web is the only place with a UI framework.",
      severity: "error",
      from: { pathNot: "^apps/web/" },
      to: {
        path: "node_modules/(react|react-dom|react-aria|react-aria-components|react-stately|zustand|@react-aria)/",
      },
    },
    {
      name: "zod-is-mini",
      comment: "zod/mini in what is shipped: a fifth of the bytes in the browser.",
      severity: "error",
      from: { path: "^(packages|apps)/", pathNot: TEST },
      to: { path: "node_modules/zod/", pathNot: "node_modules/zod/(mini|v4-mini|v4/mini|v4/core)/" },
    },
    {
      name: "oracles-in-tests-only",
      comment: "General-purpose solvers are what tests and benches compare with, never part of what is shipped.",
      severity: "error",
      from: { pathNot: `${TEST}|^(validation|bench)/` },
      to: { path: ORACLES },
    },
    {
      name: "no-tests-in-source",
      comment: "Only tests import tests.",
      severity: "error",
      from: { path: "^(packages|apps)/", pathNot: TEST },
      to: { path: `${TEST}|^(validation|bench|e2e|scripts)/`, pathNot: "^scripts/build-cli\\.mjs$" },
    },
    {
      name: "no-circle",
      comment: "No module imports itself by a detour.",
      severity: "error",
      from: {},
      to: { circular: true },
    },
    {
      name: "found",
      comment: "Each import leads to a file.",
      severity: "error",
      from: {},
      to: { couldNotResolve: true, pathNot: "^virtual:" },
    },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    exclude: { path: "(^|/)(dist|coverage)/" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    enhancedResolveOptions: {
      exportsFields: ["exports"],
      conditionNames: ["import", "default"],
      extensions: [".ts", ".tsx", ".mjs", ".js", ".cjs", ".json"],
    },
  },
};
