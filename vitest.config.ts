import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["packages/**/*.test.ts", "apps/**/*.test.ts", "validation/**/*.test.ts", "scripts/**/*.test.ts"],
    testTimeout: 120_000,
    pool: "threads",
    maxWorkers: 2,
  },
});
