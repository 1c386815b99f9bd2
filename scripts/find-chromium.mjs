import { accessSync, constants, existsSync, statSync } from "node:fs";
import { delimiter, join } from "node:path";
import { run } from "./run.mjs";

const NAMES = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome"];
const FOLDERS = ["/usr/bin", "/usr/local/bin", "/snap/bin"];
const APPLICATIONS = ["Chromium", "Google Chrome"].map((name) => `/Applications/${name}.app/Contents/MacOS/${name}`);

/** Quiet on a closed network; the sandbox has to be off where everything runs as root. */
export const CHROMIUM_FLAGS = [
  "--no-sandbox",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/**
 * Where is a Chromium for the browser tests? `CHROMIUM_PATH` goes before what the system has.
 *
 * @param {Record<string, string | undefined>} [env]
 * @returns {string | null}
 */
export function findChromium(env = process.env) {
  if (env.CHROMIUM_PATH) return isProgram(env.CHROMIUM_PATH) ? env.CHROMIUM_PATH : null;
  const folders = [...(env.PATH ?? "").split(delimiter).filter(Boolean), ...FOLDERS];
  const candidates = [...folders.flatMap((folder) => NAMES.map((name) => join(folder, name))), ...APPLICATIONS];
  return candidates.find(isProgram) ?? null;
}

/** Finds a Chromium; on Debian, as root, installs one where there is none. @returns {Promise<string | null>} */
export async function ensureChromium() {
  const found = findChromium();
  if (found || process.env.CHROMIUM_PATH || !canInstall()) return found;
  console.log("Installing Chromium for the browser tests…");
  const quiet = { env: { DEBIAN_FRONTEND: "noninteractive" }, quiet: true };
  if ((await run("apt-get", ["update"], quiet)) !== 0) return null;
  await run("apt-get", ["install", "-y", "chromium"], quiet);
  return findChromium();
}

/** What to do where none was found. */
export const chromiumAdvice = () =>
  process.env.CHROMIUM_PATH
    ? `CHROMIUM_PATH is ${process.env.CHROMIUM_PATH}, where there is no program that can be started.`
    : "The browser tests need Chromium. Install it (on Debian: apt-get install chromium), or set CHROMIUM_PATH to its program.";

const canInstall = () => process.getuid?.() === 0 && existsSync("/etc/debian_version");

/** @param {string} path */
function isProgram(path) {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}
