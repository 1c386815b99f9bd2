import { existsSync } from "node:fs";
import { join } from "node:path";
import { root, run } from "./run.mjs";

export const webFolder = join(root, "apps", "web");
export const webDist = join(webFolder, "dist");

/** Is there a web app to build? */
export const hasWeb = () => existsSync(join(webFolder, "index.html"));

/** Builds the web app into `apps/web/dist`. Gives the exit status. */
export const buildWeb = () => run("vite", ["build", "--logLevel", "warn"], { cwd: webFolder });
