import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { findChromium } from "./find-chromium.mjs";

const folder = mkdtempSync(join(tmpdir(), "programs-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test("the program that was named goes first; one that is not there is not replaced by another", () => {
  const program = join(folder, "chromium");
  writeFileSync(program, "");
  chmodSync(program, 0o755);
  expect(findChromium({ PATH: folder })).toBe(program);
  expect(findChromium({ CHROMIUM_PATH: program })).toBe(program);
  expect(findChromium({ CHROMIUM_PATH: join(folder, "missing"), PATH: folder })).toBeNull();
});

test("a folder or a file that cannot be run is not a browser", () => {
  const plain = join(folder, "plain");
  writeFileSync(plain, "", { mode: 0o644 });
  mkdirSync(join(folder, "sub"));
  expect(findChromium({ CHROMIUM_PATH: plain })).toBeNull();
  expect(findChromium({ CHROMIUM_PATH: join(folder, "sub") })).toBeNull();
});
