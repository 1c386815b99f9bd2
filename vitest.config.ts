import { defineConfig } from "vitest/config";

/** All tests that need no browser: unit, property, validation, cross-check. */
export default defineConfig({
  test: {
    include: ["{packages,apps,validation,bench,scripts}/**/*.test.{ts,tsx}"],
    exclude: ["**/node_modules/**", "**/dist/**"],
    testTimeout: 120_000,
    pool: "threads",
    maxWorkers: 2,
  },
});
