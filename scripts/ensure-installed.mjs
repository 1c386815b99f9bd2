import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { root, run } from "./run.mjs";

/**
 * Is what is installed what the lock file asks for? Compared entry by entry, so that a checkout, a copy or a clock
 * that is off cannot mislead it. Optional entries (made for other systems) may be absent.
 *
 * @param {string} folder the workspace
 */
export function isInstalled(folder) {
  const installedPath = join(folder, "node_modules", ".package-lock.json");
  if (!existsSync(installedPath)) return false;
  const wanted = packagesIn(join(folder, "package-lock.json"));
  const installed = packagesIn(installedPath);
  return Object.entries(wanted).every(([place, entry]) => {
    if (place === "" || (entry.optional && !installed[place])) return true;
    return installed[place]?.version === entry.version && installed[place]?.integrity === entry.integrity;
  });
}

/** Installs the workspace's packages as locked, unless they are there already. Ends the process where that fails. */
export async function ensureInstalled() {
  requireNode();
  if (isInstalled(root)) return;
  console.log("Installing packages…");
  const status = await run("npm", ["ci", "--include=dev"]);
  if (status !== 0) {
    console.error(
      "The packages could not be installed: see npm's message above. A first start needs the network once.",
    );
    process.exit(status);
  }
}

function requireNode() {
  const [major = 0, minor = 0] = process.versions.node.split(".").map(Number);
  if (major > 20 || (major === 20 && minor >= 19)) return;
  console.error(`Gantline needs Node 20.19 or newer; this is ${process.versions.node}.`);
  process.exit(1);
}

/**
 * @param {string} lockFile
 * @returns {Record<string, { version?: string, integrity?: string, optional?: boolean }>}
 */
function packagesIn(lockFile) {
  return JSON.parse(readFileSync(lockFile, "utf8")).packages ?? {};
}
