import { mkdirSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import type { Reporter, TestModule } from "vitest/node";

/** Writes how many tests passed and failed to the file that `TEST_COUNTS` names; prints nothing. */
export default class CountTests implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const file = process.env.TEST_COUNTS;
    if (!file) return;
    const states = modules.flatMap((module) => [...module.children.allTests()].map((test) => test.result().state));
    const count = (state: string) => states.filter((found) => found === state).length;
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, JSON.stringify({ passed: count("passed"), failed: count("failed") }));
  }
}
