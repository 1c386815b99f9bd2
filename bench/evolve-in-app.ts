import { join } from "node:path";
import { EXAMPLES } from "@gantline/plan";
import { buildSync } from "esbuild";
import type { Browser } from "playwright-core";
import { KEEPER_CODE, withKept } from "../apps/web/keep-closures.ts";
import { inBrowser } from "./in-browser.ts";
import { type BenchReport, type Measurement, summarise } from "./measure.ts";

/** Sweeps before those that count: until the browser has made the code quick. */
const WARMUP = 60;
const SWEEPS = 60;

/**
 * How long does a whole example evolution take where the app sweeps it: in a browser's engine, built as the app is, every
 * stage swept and every check judged at every moment (aim: under 60 ms, median, for 200 moments)? Each stage anew, as after
 * a change of the rig.
 */
export const benchEvolveInApp = (): Promise<BenchReport> => inBrowser(sweeps);

async function sweeps(browser: Browser): Promise<BenchReport> {
  const report: Record<string, Measurement | number> = {};
  for (const { key } of EXAMPLES) {
    const page = await browser.newPage();
    await page.addScriptTag({ content: script(), type: "module" });
    await page.waitForFunction("globalThis.evolveTimesMs");
    const timesMs = (await page.evaluate(`globalThis.evolveTimesMs("${key}", ${WARMUP + SWEEPS})`)) as number[];
    const counted = summarise(timesMs.slice(WARMUP));
    report[`evolve ${key}, in a browser`] = counted;
    report[`${key}: median, ms`] = Number(counted.medianMs.toPrecision(3));
    await page.close();
  }
  return report;
}

/** A module that gives the page one function: the times of so many sweeps of an example. */
function script(): string {
  const built = buildSync({
    stdin: {
      contents: `import { EXAMPLES, evolve } from "@gantline/plan";
        globalThis.evolveTimesMs = (key, runs) => {
          const { plan } = EXAMPLES.find((one) => one.key === key);
          return Array.from({ length: runs }, () => {
            const startMs = performance.now();
            evolve(plan);
            return performance.now() - startMs;
          });
        };`,
      resolveDir: join(import.meta.dirname, ".."),
    },
    bundle: true,
    write: false,
    format: "esm",
    logLevel: "error",
  });
  return KEEPER_CODE + withKept(built.outputFiles[0]?.text ?? "", 0).text;
}
