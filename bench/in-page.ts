import { copyFileSync, mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { buildSync } from "esbuild";
import { KEEPER_CODE, withKept } from "../apps/web/keep-closures.ts";
import { inBrowserOf } from "./in-browser.ts";
import type { BenchReport } from "./measure.ts";

const ROOT = join(import.meta.dirname, "..");
const FOLDER = join(ROOT, ".tmp", "bench-page");
const PEER = "mujoco-js";

/**
 * Runs a function that a module of `in-page/` exports in an empty page of a Chromium, with code built as the app's is; says
 * what is missing, and reports nothing, where there is no Chromium.
 *
 * @param worker of the app, from the root: the function gets what starts one
 */
export function inPage(module: string, name: string, worker?: string): Promise<BenchReport> {
  writePage(`import { ${name} } from "./bench/in-page/${module}.ts";
    globalThis.report = () => ${name}(() => new Worker("/worker.js", { type: "module" }));`);
  if (worker) writeFileSync(join(FOLDER, "worker.js"), built(`import "./${worker}";`));
  return inBrowserOf(FOLDER, async (browser, url) => {
    // The peer is WebAssembly, which the app's own policy leaves out.
    const page = await browser.newPage({ bypassCSP: true });
    await page.goto(url);
    await page.waitForFunction("globalThis.report");
    return (await page.evaluate("globalThis.report()")) as BenchReport;
  });
}

function writePage(code: string): void {
  mkdirSync(FOLDER, { recursive: true });
  copyFileSync(join(ROOT, "node_modules", PEER, "dist", "mujoco_wasm.js"), join(FOLDER, "peer.js"));
  writeFileSync(join(FOLDER, "page.js"), built(code));
  writeFileSync(
    join(FOLDER, "index.html"),
    `<!doctype html><title>Bench</title>
    <script type="importmap">{ "imports": { "${PEER}": "/peer.js" } }</script>
    <script type="module" src="/page.js"></script>`,
  );
}

/** In one file, of the functions made over and over one kept, as in the app. */
function built(code: string): string {
  const { outputFiles } = buildSync({
    stdin: { contents: code, resolveDir: ROOT, loader: "ts" },
    bundle: true,
    write: false,
    format: "esm",
    external: [PEER],
    logLevel: "error",
  });
  return KEEPER_CODE + withKept(outputFiles[0]?.text ?? "", 0).text;
}
