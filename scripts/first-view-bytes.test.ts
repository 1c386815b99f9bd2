import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { firstViewScripts } from "./first-view-bytes.mjs";

let dist = "";
beforeEach(() => {
  dist = mkdtempSync(join(tmpdir(), "dist-"));
  mkdirSync(join(dist, "assets"));
});
afterEach(() => rmSync(dist, { recursive: true, force: true }));

const put = (file: string, text: string) => writeFileSync(join(dist, file), text);

test("scripts, preloads and what they import statically are counted; what is imported on demand is not", async () => {
  put(
    "index.html",
    '<script type="module" crossorigin src="/assets/a.js"></script><link rel="modulepreload" href="/assets/p.js">',
  );
  put("assets/a.js", 'import{b}from"./b.js";b();import("./later.js");');
  put("assets/b.js", 'export*from"./c.js";export const b=()=>1;');
  put("assets/c.js", "export const c=1;");
  put("assets/p.js", "export const p=1;");
  put("assets/later.js", 'import"./c.js";import"./only-later.js";');
  put("assets/only-later.js", "export{};");
  const scripts = await firstViewScripts(dist);
  expect(scripts.map(({ file }) => file).sort()).toEqual(["assets/a.js", "assets/b.js", "assets/c.js", "assets/p.js"]);
  expect(scripts.every(({ gzipBytes }) => gzipBytes > 0)).toBe(true);
});

test("a page with no script is an error, not a pass", async () => {
  put("index.html", "<p>nothing</p>");
  await expect(firstViewScripts(dist)).rejects.toThrow("no script");
});
