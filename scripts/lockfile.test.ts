import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { root } from "./run.mjs";

interface LockEntry {
  readonly version?: string;
  readonly resolved?: string;
  readonly integrity?: string;
  readonly link?: boolean;
}

const lock = JSON.parse(readFileSync(join(root, "package-lock.json"), "utf8")) as {
  readonly packages: Readonly<Record<string, LockEntry>>;
};
const downloaded = Object.entries(lock.packages).filter(
  ([place, entry]) => place.includes("node_modules/") && !entry.link,
);

test("the lock file names no host to download from, and the content of each package", () => {
  expect(downloaded.length).toBeGreaterThan(100);
  expect(Object.values(lock.packages).filter(({ resolved }) => resolved?.includes(":"))).toEqual([]);
  expect(downloaded.filter(([, { integrity }]) => !integrity?.startsWith("sha512-"))).toEqual([]);
});

test("every dependency is pinned to one version", () => {
  const workspaces = ["packages", "apps"].flatMap((part) =>
    readdirSync(join(root, part)).map((name) => join(root, part, name, "package.json")),
  );
  const asked = [join(root, "package.json"), ...workspaces].flatMap((file) => {
    const { dependencies, devDependencies } = JSON.parse(readFileSync(file, "utf8")) as Record<
      string,
      Record<string, string> | undefined
    >;
    return Object.entries({ ...dependencies, ...devDependencies });
  });
  expect(asked.length).toBeGreaterThan(20);
  expect(asked.filter(([, version]) => !/^\d+\.\d+\.\d+$/.test(version))).toEqual([]);
});
