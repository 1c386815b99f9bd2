import { existsSync, readdirSync, realpathSync, renameSync, rmSync, statSync, utimesSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const entry = join(root, "apps", "cli", "src", "main.ts");

/** Where the command line is built to: one file that needs nothing beside it. */
export const cliBundle = join(root, "apps", "cli", "dist", "gantline.mjs");

/** @type {import("esbuild").BuildOptions} */
const bundling = {
  absWorkingDir: root,
  entryPoints: [entry],
  bundle: true,
  platform: "node",
  target: "node20",
  format: "esm",
  logLevel: "error",
};

/** Is there a bundle at least as new as every source it may be made of? Reads dates only: a few milliseconds. */
export function isCliFresh() {
  const builtMs = statSync(cliBundle, { throwIfNoEntry: false })?.mtimeMs;
  if (builtMs === undefined) return false;
  const packages = readdirSync(join(root, "packages")).map((name) => join(root, "packages", name, "src"));
  const sources = [join(root, "apps", "cli", "src"), ...packages].filter(existsSync);
  return sources.every((folder) =>
    readdirSync(folder, { recursive: true, encoding: "utf8" }).every((file) => {
      if (/\.test\.tsx?$/.test(file)) return true;
      const found = statSync(join(folder, file), { throwIfNoEntry: false });
      return !found || found.mtimeMs <= builtMs;
    }),
  );
}

/**
 * Bundles the command line into one file for Node. Throws with the bundler's message where the source is wrong.
 *
 * @returns {Promise<boolean>} false where there is nothing to build, or nothing to build it with (installed without dev tools)
 */
export async function buildCli() {
  if (!existsSync(entry)) return false;
  const esbuild = await import("esbuild").catch(() => null);
  if (!esbuild) return false;
  const startedAt = new Date();
  // Under a name of its own first: a command started meanwhile never reads half a file.
  const part = `${cliBundle}.${process.pid}.part`;
  try {
    await esbuild.build({ ...bundling, outfile: part });
    // Dated to the start: a source saved while the bundler ran counts as newer.
    utimesSync(part, startedAt, startedAt);
    renameSync(part, cliBundle);
  } finally {
    rmSync(part, { force: true });
  }
  return true;
}

/** Builds the bundle anew at each change, as long as the process runs. */
export async function watchCli() {
  if (!existsSync(entry)) return;
  const esbuild = await import("esbuild");
  const context = await esbuild.context({ ...bundling, outfile: cliBundle });
  await context.watch();
}

if (process.argv[1] && realpathSync(process.argv[1]) === fileURLToPath(import.meta.url)) await buildCli();
