/** `npm run docs:check`: writes the generated documents anew; fails where that changes one. */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { root, run } from "./run.mjs";

const GENERATED = [{ generator: "validation/generate.ts", document: "docs/validation.md" }];

/** @param {string} file */
const textOf = (file) => (existsSync(join(root, file)) ? readFileSync(join(root, file), "utf8") : "");

for (const { generator, document } of GENERATED) {
  if (!existsSync(join(root, generator))) {
    console.log(`${document}: no generator yet`);
    continue;
  }
  const before = textOf(document);
  const status = await run("tsx", [generator]);
  if (status !== 0) process.exit(status);
  const isSame = textOf(document) === before && before !== "";
  console.log(
    isSame ? `${document} is up to date` : `${document} was out of date and is written anew: look at it and commit it.`,
  );
  if (!isSame) process.exitCode = 1;
}
