/** `npm run bytes`: how much JavaScript the first view needs, and whether that is within its budget. */
import { readFileSync, realpathSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { build } from "esbuild";
import { webDist } from "./build-web.mjs";

const BUDGET_BYTES = 300_000;

/**
 * Which scripts does a built page load before it shows anything, and how large are they?
 * Counted: the page's own scripts and preloads, and all they import statically. What is imported on demand is not.
 *
 * @param {string} dist folder of the built page, with an `index.html`
 * @returns {Promise<{ file: string, gzipBytes: number }[]>} largest first; throws where the page has no script
 */
export async function firstViewScripts(dist) {
  const html = readFileSync(join(dist, "index.html"), "utf8");
  const tags = html.match(/<(script|link)\b[^>]*>/g) ?? [];
  const first = tags.flatMap((tag) => {
    const isScript = tag.startsWith("<script") || /rel="?modulepreload/.test(tag);
    const address = /\b(?:src|href)="([^"]+\.m?js)"/.exec(tag)?.[1];
    return isScript && address ? [address.replace(/^\.?\//, "")] : [];
  });
  if (first.length === 0) throw new Error(`${join(dist, "index.html")} has no script.`);
  const imports = await staticImports(dist, first);
  const reached = new Set();
  const waiting = [...first];
  for (let file = waiting.pop(); file !== undefined; file = waiting.pop()) {
    if (reached.has(file)) continue;
    reached.add(file);
    waiting.push(...(imports[file] ?? []));
  }
  return [...reached]
    .map((file) => ({ file, gzipBytes: gzipSync(readFileSync(join(dist, file))).length }))
    .sort((a, b) => b.gzipBytes - a.gzipBytes);
}

/**
 * What each script imports statically, by reading the built scripts as a bundler does.
 *
 * @param {string} dist
 * @param {string[]} entries
 * @returns {Promise<Record<string, string[]>>}
 */
async function staticImports(dist, entries) {
  const { metafile } = await build({
    absWorkingDir: realpathSync(dist),
    entryPoints: entries,
    outdir: "unused",
    bundle: true,
    splitting: true,
    format: "esm",
    write: false,
    metafile: true,
    logLevel: "error",
  });
  return Object.fromEntries(
    Object.entries(metafile.inputs).map(([file, input]) => [
      file,
      input.imports.filter(({ kind, external }) => kind === "import-statement" && !external).map(({ path }) => path),
    ]),
  );
}

if (process.argv[1] && realpathSync(process.argv[1]) === fileURLToPath(import.meta.url)) {
  const scripts = await firstViewScripts(webDist);
  const totalBytes = scripts.reduce((sum, { gzipBytes }) => sum + gzipBytes, 0);
  for (const { file, gzipBytes } of scripts) console.log(`${inKb(gzipBytes).padStart(9)}  ${file}`);
  console.log(`${inKb(totalBytes).padStart(9)}  first view, gzipped; the budget is ${inKb(BUDGET_BYTES)}`);
  process.exitCode = totalBytes > BUDGET_BYTES ? 1 : 0;
}

/** @param {number} bytes */
function inKb(bytes) {
  return `${(bytes / 1000).toFixed(1)} kB`;
}
