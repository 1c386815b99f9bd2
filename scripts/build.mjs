/** `npm run build`: the web app and the command line. */
import { buildCli } from "./build-cli.mjs";
import { buildWeb, hasWeb } from "./build-web.mjs";
import { ensureInstalled } from "./ensure-installed.mjs";

await ensureInstalled();
await buildCli();
if (hasWeb()) process.exitCode = await buildWeb();
