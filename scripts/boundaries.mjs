/** `npm run boundaries`: who imports whom, and that every module was really looked at. */
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, realpathSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { root } from "./run.mjs";

const PARTS = ["packages", "apps", "validation", "bench", "e2e", "scripts"];

/**
 * Which imports of a workspace go where they must not, by the rules in `.dependency-cruiser.cjs`?
 * Throws when a source file on disk was not among the modules read: a check that looks at nothing finds nothing.
 *
 * @param {string} folder the workspace; needs a `tsconfig.json`
 * @returns {{ moduleCount: number, violations: { rule: string, from: string, to: string }[] }}
 */
export function checkBoundaries(folder) {
  const parts = PARTS.filter((part) => existsSync(join(folder, part)));
  const sources = parts.flatMap((part) => sourcesIn(folder, part));
  requireAllRead(sources, sources);
  const cruised = spawnSync(
    process.execPath,
    [
      join(root, "node_modules", "dependency-cruiser", "bin", "dependency-cruise.mjs"),
      ...["--config", join(root, ".dependency-cruiser.cjs"), "--output-type", "json", ...parts],
    ],
    { cwd: folder, encoding: "utf8", maxBuffer: 1 << 28 },
  );
  if (!cruised.stdout?.startsWith("{")) throw new Error(`The modules could not be read: ${cruised.stderr}`);
  const report = JSON.parse(cruised.stdout);
  requireAllRead(
    sources,
    report.modules.map((/** @type {{ source: string }} */ module) => module.source),
  );
  return {
    moduleCount: sources.length,
    violations: report.summary.violations.map(
      (/** @type {{ rule: { name: string }, from: string, to: string }} */ found) => ({
        rule: found.rule.name,
        from: found.from,
        to: found.to,
      }),
    ),
  };
}

/**
 * Throws where a source was not read, or where there are none.
 *
 * @param {readonly string[]} sources
 * @param {readonly string[]} read
 */
export function requireAllRead(sources, read) {
  const unread = sources.filter((source) => !read.includes(source));
  if (sources.length === 0) throw new Error("There are no modules to read.");
  if (unread.length > 0) throw new Error(`Modules that were not read: ${unread.join(", ")}`);
}

/**
 * @param {string} folder
 * @param {string} part
 */
function sourcesIn(folder, part) {
  return readdirSync(join(folder, part), { recursive: true, encoding: "utf8" })
    .map((file) => `${part}/${file.replaceAll("\\", "/")}`)
    .filter((file) => /\.tsx?$/.test(file) && !/(^|\/)(node_modules|dist|coverage)\//.test(file));
}

if (process.argv[1] && realpathSync(process.argv[1]) === fileURLToPath(import.meta.url)) {
  const { moduleCount, violations } = checkBoundaries(root);
  for (const { rule, from, to } of violations) console.error(`${rule}: ${from} → ${to}`);
  console.log(`${moduleCount} modules read, ${violations.length} imports out of bounds`);
  process.exitCode = violations.length > 0 ? 1 : 0;
}
