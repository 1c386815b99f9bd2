import { spawn } from "node:child_process";
import { delimiter, join } from "node:path";
import { fileURLToPath } from "node:url";

/** The folder of the workspace. */
export const root = fileURLToPath(new URL("..", import.meta.url));

/**
 * Runs a program from the workspace's folder, its output going to the screen.
 *
 * @param {string} command a program on the path or one the workspace has installed
 * @param {readonly string[]} args
 * @param {{ cwd?: string, env?: Record<string, string>, quiet?: boolean }} [options] `quiet` keeps standard output back
 * @returns {Promise<number>} its exit status; 1 when a signal ended it, 127 when it could not be started
 */
export function run(command, args, { cwd = root, env = {}, quiet = false } = {}) {
  const path = [join(root, "node_modules", ".bin"), process.env.PATH ?? ""].join(delimiter);
  return new Promise((settle) => {
    const child = spawn(command, args, {
      cwd,
      env: { ...process.env, ...env, PATH: path },
      stdio: ["ignore", quiet ? "ignore" : "inherit", "inherit"],
      shell: process.platform === "win32",
    });
    const stop = () => child.kill();
    process.once("SIGTERM", stop);
    child.on("error", (error) => {
      console.error(`${command} could not be started: ${error.message}`);
      settle(127);
    });
    child.on("exit", (status) => {
      process.off("SIGTERM", stop);
      settle(status ?? 1);
    });
  });
}
