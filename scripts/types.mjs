/** `npm run types`: every TypeScript project of the workspace, in the order of the house. */
import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { root, run } from "./run.mjs";

const PROJECTS = ["packages/engine", "packages/plan", "packages/drawing", "packages/runtime", "apps/web", "."];

/** A project whose folder has no source yet has nothing to check. @param {string} project */
const hasSource = (project) =>
  project === "." ||
  (existsSync(join(root, project, "src")) &&
    readdirSync(join(root, project, "src"), { recursive: true, encoding: "utf8" }).some((file) =>
      /\.tsx?$/.test(file),
    ));

for (const project of PROJECTS.filter(hasSource)) {
  const status = await run("tsc", ["-p", project]);
  if (status === 0) continue;
  process.exitCode = status;
}
