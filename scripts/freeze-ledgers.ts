/**
 * Writes anew the ledger that each frozen plan file must keep. Only for a correction of the mechanics or of a rule that is meant
 * to change old answers, with a line in the changelog that says so: `npx tsx scripts/freeze-ledgers.ts`, then read the difference.
 */
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { evaluate, readPlanText } from "@gantline/plan";

const FOLDER = new URL("../packages/plan/fixtures/", import.meta.url);

for (const file of readdirSync(FOLDER).filter((name) => /^v\d+-[a-z]+\.json$/.test(name))) {
  const read = readPlanText(readFileSync(new URL(file, FOLDER), "utf8"));
  if (!read.ok) throw new Error(`${file} does not open: ${read.problems.map(({ path }) => path).join(", ")}`);
  const rows = evaluate(read.plan).ledger.map(({ id, status, ratio }) => JSON.stringify({ id, status, ratio }));
  writeFileSync(new URL(file.replace(".json", ".ledger.json"), FOLDER), `[\n  ${rows.join(",\n  ")}\n]\n`);
}
