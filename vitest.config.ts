import { defineConfig } from "vitest/config";

/** All tests that need no browser: unit, property, validation, cross-check. */
export default defineConfig({
  test: {
    include: ["{packages,apps,validation,bench,scripts}/**/*.test.{ts,tsx}"],
    exclude: ["**/node_modules/**", "**/dist/**"],
    // Against a test that hangs; on a busy machine the long ones take minutes.
    testTimeout: 300_000,
    pool: "threads",
    maxWorkers: 2,
  },
});
