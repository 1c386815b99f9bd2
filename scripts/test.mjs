/**
 * `npm test`: everything, on a fresh clone too. `npm run check` (`--no-browser`): all but the builds and the browser.
 * Steps go in groups, cheap ones first; a group with a failure is the last one. Plain JavaScript, as it installs first.
 */
import { existsSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { buildWeb, hasWeb } from "./build-web.mjs";
import { ensureInstalled } from "./ensure-installed.mjs";
import { chromiumAdvice, ensureChromium } from "./find-chromium.mjs";
import { root, run } from "./run.mjs";

/** @typedef {{ name: string, go: () => Promise<boolean>, isThere?: boolean }} Step */

const withBrowser = !process.argv.includes("--no-browser");
const total = { passed: 0, failed: 0 };

/** @param {string} script @param {...string} args */
const script = async (script, ...args) => (await run(process.execPath, [join("scripts", script), ...args])) === 0;
/** @param {string} command @param {...string} args */
const tool = async (command, ...args) => (await run(command, args)) === 0;

await ensureInstalled();

/** @type {Step[][]} */
const groups = [
  [
    { name: "types", go: () => script("types.mjs") },
    { name: "lint", go: () => tool("biome", "check", "--error-on-warnings") },
    { name: "boundaries", go: () => script("boundaries.mjs") },
    { name: "dead code", go: () => tool("knip", "--no-progress") },
  ],
  [
    { name: "a browser to test with", go: findBrowser, isThere: withBrowser },
    { name: "build of the web app", go: async () => (await buildWeb()) === 0, isThere: withBrowser && hasWeb() },
    { name: "build of the command line", go: () => script("build-cli.mjs"), isThere: withBrowser },
    { name: "bytes of the first view", go: () => script("first-view-bytes.mjs"), isThere: withBrowser && hasWeb() },
  ],
  [{ name: "generated documents", go: () => script("generated-docs.mjs") }],
  [{ name: "tests", go: () => vitest("vitest.config.ts") }],
  [
    {
      name: "browser tests",
      go: () => vitest("vitest.e2e.config.ts"),
      isThere: withBrowser && hasWeb() && readdirSync(join(root, "e2e")).some((file) => file.endsWith(".e2e.ts")),
    },
  ],
];

/** @type {string[]} */
let failed = [];
for (const group of groups) {
  if (failed.length === 0) failed = await runGroup(group);
}
if (failed.length > 0) console.error(`\nFailed: ${failed.join(", ")}. Steps after that were not run.`);
console.log(`\n${total.passed} passed, ${total.failed} failed`);
process.exitCode = failed.length > 0 ? 1 : 0;

/** Runs the steps of a group; gives the names of those that failed. @param {Step[]} steps */
async function runGroup(steps) {
  const failures = [];
  for (const { name, go, isThere = true } of steps) {
    if (!isThere) continue;
    console.log(`\n▸ ${name}`);
    const startMs = performance.now();
    const failedBefore = total.failed;
    const isGood = await go();
    console.log(`${isGood ? "✓" : "✗"} ${name} (${((performance.now() - startMs) / 1000).toFixed(1)} s)`);
    if (isGood) continue;
    failures.push(name);
    // A step that fails with no failing test to show for it counts as one failure.
    if (total.failed === failedBefore) total.failed++;
  }
  return failures;
}

/** Runs the tests of a config and adds them to the total. @param {string} config */
async function vitest(config) {
  const countsFile = join(root, ".tmp", "test-counts.json");
  rmSync(countsFile, { force: true });
  const reporters = ["--reporter=default", "--reporter=./scripts/count-tests.ts"];
  const status = await run("vitest", ["run", "--config", config, ...reporters], { env: { TEST_COUNTS: countsFile } });
  if (!existsSync(countsFile)) return false;
  const counts = JSON.parse(readFileSync(countsFile, "utf8"));
  total.passed += counts.passed;
  total.failed += counts.failed;
  return status === 0;
}

async function findBrowser() {
  const found = await ensureChromium();
  console[found ? "log" : "error"](found ?? chromiumAdvice());
  return found !== null;
}
