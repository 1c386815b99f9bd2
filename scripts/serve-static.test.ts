import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { serveStatic } from "./serve-static.mjs";

const folder = mkdtempSync(join(tmpdir(), "site-"));
let site: Awaited<ReturnType<typeof serveStatic>>;
beforeAll(async () => {
  mkdirSync(join(folder, "dist", "assets"), { recursive: true });
  writeFileSync(join(folder, "secret.txt"), "not for the page");
  writeFileSync(join(folder, "dist", "index.html"), "<!doctype html><title>page</title>");
  writeFileSync(join(folder, "dist", "sw.js"), "self.skipWaiting();");
  writeFileSync(join(folder, "dist", "assets", "a.woff2"), "font");
  site = await serveStatic(join(folder, "dist"), 0);
});
afterAll(async () => {
  await site.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Asks for a path as it stands: `fetch` would tidy `..` away before asking. */
const statusOf = (path: string) =>
  new Promise<number>((settle, fail) => {
    const { port } = new URL(site.url);
    request({ host: "127.0.0.1", port, path }, (response) => {
      response.resume();
      settle(response.statusCode ?? 0);
    })
      .on("error", fail)
      .end();
  });

test("the page may load from its own address only, and is asked for anew each time", async () => {
  const page = await fetch(site.url);
  expect(await page.text()).toContain("<title>page</title>");
  expect(page.headers.get("content-type")).toBe("text/html; charset=utf-8");
  expect(page.headers.get("content-security-policy")).toContain("default-src 'self'");
  expect(page.headers.get("cache-control")).toBe("no-cache");
  const worker = await fetch(`${site.url}sw.js?v=2`);
  expect(worker.headers.get("content-type")).toBe("text/javascript; charset=utf-8");
  expect(worker.headers.get("cache-control")).toBe("no-cache");
  expect((await fetch(`${site.url}assets/a.woff2`)).headers.get("content-type")).toBe("font/woff2");
});

test("nothing outside the folder is served", async () => {
  for (const path of [
    "/../secret.txt",
    "/%2e%2e/secret.txt",
    "/..%2fsecret.txt",
    "/assets/../../secret.txt",
    "/%zz",
    "/%00",
  ]) {
    expect(await statusOf(path), path).toBe(404);
  }
  expect(await statusOf("/assets")).toBe(404);
  expect((await fetch(site.url, { method: "POST", body: "x" })).status).toBe(405);
});

test("a port that is taken is passed over", async () => {
  const taken = Number(new URL(site.url).port);
  const next = await serveStatic(join(folder, "dist"), taken);
  expect(Number(new URL(next.url).port)).toBeGreaterThan(taken);
  await next.close();
});
