/** `npm run dev`: the web app served while it is worked on, and the command line built anew at each change. */
import { webFolder } from "./build-web.mjs";
import { ensureInstalled } from "./ensure-installed.mjs";
import { run } from "./run.mjs";

await ensureInstalled();
const { watchCli } = await import("./build-cli.mjs");
await watchCli();
process.exitCode = await run("vite", [], { cwd: webFolder });
process.exit();
