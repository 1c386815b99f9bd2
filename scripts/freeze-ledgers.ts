/**
 * Writes anew the ledger that each frozen plan file must keep, and that of its evolution where it has stages. Only for a
 * correction of the mechanics or of a rule that is meant to change old answers, with a line in the changelog that says so:
 * `npx tsx scripts/freeze-ledgers.ts`, then read the difference.
 */
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { type Check, evaluate, evolve, readPlanText } from "@gantline/plan";

const FOLDER = new URL("../packages/plan/fixtures/", import.meta.url);

function freeze(file: string, ledger: readonly Check[]): void {
  const rows = ledger.map(({ id, status, ratio }) => JSON.stringify({ id, status, ratio }));
  writeFileSync(new URL(file, FOLDER), `[\n  ${rows.join(",\n  ")}\n]\n`);
}

for (const file of readdirSync(FOLDER).filter((name) => /^v\d+-[a-z]+\.json$/.test(name))) {
  const read = readPlanText(readFileSync(new URL(file, FOLDER), "utf8"));
  if (!read.ok) throw new Error(`${file} does not open: ${read.problems.map(({ path }) => path).join(", ")}`);
  freeze(file.replace(".json", ".ledger.json"), evaluate(read.plan).ledger);
  if (read.plan.evolution.stages.length > 0) freeze(file.replace(".json", ".evolution.json"), evolve(read.plan).ledger);
}
