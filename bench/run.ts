/**
 * `npm run bench [name…]`: runs every function named `bench…` in this folder, prints a table, writes `.tmp/bench.json`. Each file is
 * bundled first, as app and command line are: a runner of TypeScript names every function as it is made, which costs much.
 */
import { execFileSync } from "node:child_process";
import { mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import type { BenchReport } from "./measure.ts";

const here = import.meta.dirname;
const root = join(here, "..");
/** Names as files and functions spell them alike: `let-go` is `benchLetGo` of `let-go.ts`. */
const plain = (name: string): string => name.toLowerCase().replaceAll("-", "");
const wanted = process.argv.slice(2).map(plain);

const results: Record<string, BenchReport> = {};
for (const file of readdirSync(here).sort()) {
  if (!file.endsWith(".ts") || file.endsWith(".test.ts") || ["run.ts", "thread-scope.ts"].includes(file)) continue;
  const module = (await import(pathToFileURL(await bundled(file)).href)) as Record<string, unknown>;
  for (const [name, bench] of Object.entries(module)) {
    if (!name.startsWith("bench") || typeof bench !== "function") continue;
    if (wanted.length > 0 && ![name, file].some((n) => wanted.some((part) => plain(n).includes(part)))) continue;
    console.log(`\n${name}`);
    const report = (await bench()) as BenchReport;
    printReport(report);
    results[name] = report;
  }
}
if (Object.keys(results).length === 0) {
  console.error(`No bench is named ${wanted.join(" or ")}; the last results stay as they are.`);
  process.exit(1);
}

mkdirSync(join(root, ".tmp"), { recursive: true });
const about = { commit: commit(), processor: cpus()[0]?.model ?? "unknown", node: process.version };
writeFileSync(join(root, ".tmp", "bench.json"), `${JSON.stringify({ ...about, results }, null, 2)}\n`);
console.log(`\n${about.processor}, Node ${about.node}, commit ${about.commit}. Written to .tmp/bench.json`);

/** In one file, in a folder as deep as this one: what it finds beside itself stays where it was. */
async function bundled(file: string): Promise<string> {
  const outfile = join(root, ".tmp", `bench-${file.replace(/\.ts$/, ".mjs")}`);
  await build({
    entryPoints: [join(here, file)],
    outfile,
    bundle: true,
    external: ["esbuild", "mujoco-js", "playwright-core", "vite"],
    platform: "node",
    target: "node20",
    format: "esm",
    logLevel: "error",
  });
  return outfile;
}

function printReport(report: BenchReport): void {
  let referenceMs: number | null = null;
  for (const [name, value] of Object.entries(report)) {
    if (typeof value === "number") {
      console.log(`  ${name.padEnd(34)} ${String(value).padStart(11)}`);
      continue;
    }
    const ratio = referenceMs === null ? "" : `  ${(value.minMs / referenceMs).toFixed(2)} × the first`;
    referenceMs ??= value.minMs;
    const spread = `mean ${inMs(value.meanMs)} ± ${inMs(value.deviationMs)}, 95 % below ${inMs(value.p95Ms)}`;
    console.log(
      `  ${name.padEnd(34)} ${inMs(value.minMs).padStart(8)} ms least; ${spread}; ${value.runs} runs${ratio}`,
    );
  }
}

function inMs(timeMs: number): string {
  return timeMs >= 100 ? timeMs.toFixed(0) : timeMs.toPrecision(3);
}

/** The commit that was measured, marked where files differ from it. */
function commit(): string {
  try {
    const git = (...args: string[]) => execFileSync("git", args, { cwd: root, encoding: "utf8" }).trim();
    return git("rev-parse", "--short", "HEAD") + (git("status", "--porcelain") ? " with changes" : "");
  } catch {
    return "unknown";
  }
}
