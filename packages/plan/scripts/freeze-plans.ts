/**
 * Freezes the examples as plan files of the present format version, each with the ledger it has now:
 * `npx tsx packages/plan/scripts/freeze-plans.ts`. Run by hand, once for each new version. What is frozen stays as it is:
 * a file that is there already is left alone, unless `--anew` says that its version has not been released yet.
 */
import { existsSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { EXAMPLES, evaluate, PLAN_VERSION, writePlanText } from "../src/index.ts";

const anew = process.argv.includes("--anew");

for (const { key, plan } of EXAMPLES) {
  const name = `v${PLAN_VERSION}-${key}`;
  const checks = evaluate(plan).ledger.map(({ id, status, ratio }) => ({ id, status, ratio }));
  const ledger = `[\n${checks.map((check) => `  ${JSON.stringify(check)}`).join(",\n")}\n]\n`;
  freeze(`${name}.json`, writePlanText(plan));
  freeze(`${name}.ledger.json`, ledger);
}

function freeze(file: string, text: string): void {
  const path = fileURLToPath(new URL(`../fixtures/${file}`, import.meta.url));
  if (existsSync(path) && !anew) {
    console.log(`${file} is frozen already`);
    return;
  }
  writeFileSync(path, text);
  console.log(`${file} written`);
}
