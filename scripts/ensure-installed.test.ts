import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { isInstalled } from "./ensure-installed.mjs";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "workspace-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

type Packages = Record<string, { version: string; integrity: string; optional?: boolean }>;
const wanted: Packages = {
  "node_modules/rope": { version: "1.0.0", integrity: "sha512-a" },
  "node_modules/knot": { version: "2.0.0", integrity: "sha512-b" },
  "node_modules/other-system": { version: "3.0.0", integrity: "sha512-c", optional: true },
};

function isInstalledWith(installed: Packages | null): boolean {
  writeFileSync(join(folder, "package-lock.json"), JSON.stringify({ packages: { "": { name: "w" }, ...wanted } }));
  if (installed) {
    mkdirSync(join(folder, "node_modules"), { recursive: true });
    writeFileSync(join(folder, "node_modules", ".package-lock.json"), JSON.stringify({ packages: installed }));
  }
  return isInstalled(folder);
}

test("what is locked has to be there, at its version and with its content; what is for other systems need not", () => {
  const { "node_modules/other-system": _, ...here } = wanted;
  expect(isInstalledWith(null)).toBe(false);
  expect(isInstalledWith(wanted)).toBe(true);
  expect(isInstalledWith(here)).toBe(true);
  expect(isInstalledWith({ "node_modules/rope": { version: "1.0.0", integrity: "sha512-a" } })).toBe(false);
  expect(isInstalledWith({ ...here, "node_modules/knot": { version: "1.9.0", integrity: "sha512-b" } })).toBe(false);
  expect(isInstalledWith({ ...here, "node_modules/knot": { version: "2.0.0", integrity: "sha512-x" } })).toBe(false);
});
