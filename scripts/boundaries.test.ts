import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterEach, expect, test } from "vitest";
import { checkBoundaries, requireAllRead } from "./boundaries.mjs";
import { root } from "./run.mjs";

const folders: string[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** Builds a small workspace of the same shape in a folder of its own. */
function house(files: Record<string, string>): string {
  const folder = mkdtempSync(join(tmpdir(), "house-"));
  folders.push(folder);
  const put = (path: string, text: string) => {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  };
  put("package.json", '{ "type": "module" }');
  put("tsconfig.json", '{ "compilerOptions": { "module": "ESNext", "moduleResolution": "bundler" } }');
  for (const name of ["engine", "plan", "drawing", "runtime"]) {
    put(`packages/${name}/package.json`, `{ "name": "@gantline/${name}", "exports": { ".": "./src/index.ts" } }`);
    mkdirSync(join(folder, "node_modules", "@gantline"), { recursive: true });
    symlinkSync(join(folder, "packages", name), join(folder, "node_modules", "@gantline", name), "dir");
  }
  for (const name of ["react", "zod", "mathjs"]) {
    symlinkSync(join(root, "node_modules", name), join(folder, "node_modules", name), "dir");
  }
  for (const [path, text] of Object.entries(files)) put(path, text);
  return folder;
}

const SOUND: Record<string, string> = {
  "packages/engine/src/index.ts": 'export * from "./solve/answer.ts";',
  "packages/engine/src/base/zero.ts": "export const zero = 0;",
  "packages/engine/src/rope/network.ts": 'import { zero } from "../base/zero.ts"; export const network = zero;',
  "packages/engine/src/solve/answer.ts": 'import { network } from "../rope/network.ts"; export const answer = network;',
  "packages/plan/src/index.ts":
    'import { answer } from "@gantline/engine"; import * as z from "zod/mini"; export const plan = [answer, z];',
  "packages/drawing/src/index.ts": 'import { plan } from "@gantline/plan"; export const drawing = plan;',
  "packages/runtime/src/index.ts": 'import { plan } from "@gantline/plan"; export const runtime = plan;',
  "apps/web/src/main.tsx": 'import { drawing } from "@gantline/drawing"; import "react"; export const page = drawing;',
  "apps/cli/src/main.ts": 'import { readFileSync } from "node:fs"; export const read = readFileSync;',
};

/** The rule, the file it is broken in, and what that file must not import. */
const PLANTED: readonly (readonly [rule: string, from: string, specifier: string])[] = [
  ["engine-base", "packages/engine/src/base/planted.ts", "../rope/network.ts"],
  ["engine-rope", "packages/engine/src/rope/planted.ts", "../solve/answer.ts"],
  ["engine-stand", "packages/engine/src/stand/planted.ts", "../sample/grid.ts"],
  ["engine-alone", "packages/engine/src/base/clock.ts", "node:perf_hooks"],
  ["engine-alone", "packages/engine/src/solve/oracle.ts", "zod/mini"],
  ["engine-folder-unknown", "packages/engine/src/index.ts", "./attic/box.ts"],
  ["house-engine", "packages/engine/src/solve/upward.ts", "@gantline/plan"],
  ["house-plan", "packages/plan/src/upward.ts", "@gantline/drawing"],
  ["house-drawing", "packages/drawing/src/upward.ts", "@gantline/runtime"],
  ["house-runtime", "packages/runtime/src/upward.ts", "../../../apps/cli/src/main.ts"],
  ["runs-in-a-browser", "packages/plan/src/file.ts", "node:fs"],
  ["through-the-front-door", "apps/cli/src/burglar.ts", "../../../packages/engine/src/base/zero.ts"],
  ["apps-apart", "apps/cli/src/neighbour.ts", "../../web/src/main.tsx"],
  ["react-in-web-only", "packages/drawing/src/component.tsx", "react"],
  ["zod-is-mini", "packages/plan/src/large.ts", "zod"],
  ["oracles-in-tests-only", "packages/plan/src/algebra.ts", "mathjs"],
  ["no-tests-in-source", "packages/plan/src/borrower.ts", "./plan.test.ts"],
  ["no-circle", "packages/plan/src/snake.ts", "./tail.ts"],
  ["found", "packages/plan/src/nowhere.ts", "./missing.ts"],
];

test("a house in order passes, and every module of it is read", () => {
  const { violations, moduleCount } = checkBoundaries(house(SOUND));
  expect(violations).toEqual([]);
  expect(moduleCount).toBe(Object.keys(SOUND).length);
});

test("each planted import is refused, a value and a type alike", () => {
  const planted = Object.fromEntries(
    PLANTED.map(([, from, specifier], i) => [
      from,
      `${SOUND[from] ?? ""}\n${i % 2 ? `import type * as planted${i} from "${specifier}"; export type P = typeof planted${i};` : `import "${specifier}";`}`,
    ]),
  );
  const { violations } = checkBoundaries(
    house({
      ...SOUND,
      "packages/engine/src/sample/grid.ts": "export const grid = 1;",
      "packages/engine/src/attic/box.ts": "export const box = 1;",
      "packages/plan/src/plan.test.ts": "export const fixture = 1;",
      "packages/plan/src/tail.ts": 'import "./snake.ts";',
      ...planted,
    }),
  );
  for (const [rule, from] of PLANTED) {
    expect(
      violations.some((found) => found.rule === rule && found.from === from),
      `${rule} in ${from}`,
    ).toBe(true);
  }
});

test("a house with nothing in it is an error, not a pass", () => {
  expect(() => checkBoundaries(house({}))).toThrow("no modules");
});

test("a module on disk that was not read is an error", () => {
  expect(() => requireAllRead(["a.ts", "b.ts"], ["a.ts"])).toThrow("b.ts");
  expect(() => requireAllRead(["a.ts"], ["a.ts", "node:fs"])).not.toThrow();
});
