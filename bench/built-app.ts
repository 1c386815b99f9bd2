import { existsSync } from "node:fs";
import { join } from "node:path";

/** Nothing of the browser's own is done meanwhile. */
export const BROWSER_FLAGS = [
  "--no-sandbox",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
] as const;

/** The folder of the app as built; null: not built yet. */
export function builtApp(): string | null {
  const dist = join(import.meta.dirname, "..", "apps", "web", "dist");
  return existsSync(join(dist, "index.html")) ? dist : null;
}
