import { defineConfig } from "vitest/config";

/** Browser tests, one file after another, against the built web app (`npm run build` first). */
export default defineConfig({
  test: {
    include: ["e2e/**/*.e2e.ts"],
    globalSetup: ["e2e/serve-app.ts"],
    fileParallelism: false,
    testTimeout: 240_000,
    hookTimeout: 120_000,
    // Drawings and ledger follow what is done in their own time.
    expect: { poll: { timeout: 15_000 } },
  },
});
