#!/usr/bin/env node
import { pathToFileURL } from "node:url";
import { buildCli, cliBundle, isCliFresh } from "../../../scripts/build-cli.mjs";

const built = isCliFresh() || (await buildCli().catch(() => false));
if (!built) {
  console.error("The command line could not be built. Run: npm ci && npm run build");
  process.exit(2);
}
await import(pathToFileURL(cliBundle).href);
