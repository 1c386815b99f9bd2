import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { EXAMPLES } from "@gantline/plan";
import { afterAll, describe, expect, it } from "vitest";

const BIN = fileURLToPath(new URL("../bin/gantline.mjs", import.meta.url));
const gantline = (args: readonly string[], input = "") => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [BIN, ...args], {
    input,
    encoding: "utf8",
    maxBuffer: 1 << 28,
  });
  return { status, stdout, stderr };
};
const folder = mkdtempSync(join(tmpdir(), "gantline-stand-"));
afterAll(() => rmSync(folder, { recursive: true }));

const crossing = EXAMPLES.find((e) => e.key === "crossing")?.plan;
if (!crossing) throw new Error("no such example");
const TEXT = JSON.stringify(crossing);

describe("gantline stand", () => {
  it("prints the best by each figure, what governs elsewhere, what to paint, and draws the map", () => {
    const map = join(folder, "map.svg");
    const got = gantline(["stand", "-", "--cell", "1", "--svg", map], TEXT);
    expect(got.stderr).toBe("");
    expect(got.status).toBe(0);
    for (const word of [
      "Best by each figure",
      "steepest",
      "least rope",
      "over the edge of the parking ground",
      "To paint",
    ])
      expect(got.stdout).toContain(word);
    expect(got.stdout).not.toMatch(/NaN|Infinity|undefined|\bsafe\b/);
    expect(got.stdout).toMatch(/toward 90\.0°: bearing [\d.]+°, inclinometer [\d.]+°, length [\d.]+\sm, used \d/);
    expect(readFileSync(map, "utf8")).toContain("raised and slewed");
    expect(readFileSync(map, "utf8")).toMatch(/^<svg[^>]*>[\s\S]*<\/svg>\s*$/);
  });

  it("draws the map by a figure, and refuses one it does not know or has no file for", () => {
    const map = join(folder, "clearest.svg");
    const got = gantline(["stand", "-", "--cell", "1", "--no-advice", "--svg", map, "--figure", "clearest"], TEXT);
    expect(got.stderr).toBe("");
    expect(readFileSync(map, "utf8")).toContain("most clearance beyond what is asked: ");
    const unknown = gantline(["stand", "-", "--svg", map, "--figure", "nicest"], TEXT);
    expect([unknown.status, unknown.stderr]).toEqual([2, expect.stringContaining('There is no figure "nicest"')]);
    expect(gantline(["stand", "-", "--figure", "clearest"], TEXT).stderr).toContain("goes with --svg FILE");
  });

  it("tries the department's own vehicles, by the plans they are in, and names the file it cannot read", () => {
    const { aerial } = crossing;
    const own = { ...aerial.device, id: "own-ladder", name: "Own ladder", example: false };
    const file = join(folder, "own.json");
    writeFileSync(file, JSON.stringify({ ...crossing, aerial: { ...aerial, device: own } }));
    const args = ["stand", "-", "--cell", "2", "--no-advice", "--json", "--vehicles-from", file];
    const got = gantline([...args, "--vehicle", "own-ladder"], TEXT);
    expect(got.stderr).toBe("");
    expect(got.stdout).toContain("own-ladder");
    const broken = join(folder, "broken.json");
    writeFileSync(broken, "{");
    const refused = gantline(["stand", "-", "--vehicles-from", `${file},${broken}`], TEXT);
    expect([refused.status, refused.stderr]).toEqual([2, expect.stringContaining(`--vehicles-from ${broken}: `)]);
  });

  it("answers in SI as JSON, for several vehicles and places", () => {
    const args = [
      "stand",
      "-",
      "--cell",
      "2",
      "--vehicle",
      "all",
      "--over",
      "present,destination",
      "--no-advice",
      "--json",
    ];
    const { scene } = crossing;
    const destination = { name: "Ambulance", position: [12, 10.6, 0] as [number, number, number] };
    const text = JSON.stringify({ ...crossing, scene: { ...scene, destination } });
    const got = gantline(args, text);
    const answer = JSON.parse(got.stdout);
    expect(got.status).toBe(answer.fits ? 0 : 1);
    expect(answer.vehicles.map((v: { vehicle: string }) => v.vehicle)).toHaveLength(3);
    expect(answer.vehicles[0].aims.map((a: { id: string }) => a.id)).toEqual(["present", "destination"]);
    for (const { cells, governs, places } of answer.vehicles) {
      expect(places).toHaveLength(77);
      for (const { status, reason } of places) expect(reason === null).toBe(status === "feasible");
      // 14 m × 21 m of yard in cells of 2 m: 7 × 11.
      expect(cells.feasible + cells.unknown + cells.rejected).toBe(77);
      expect(governs.reduce((sum: number, g: { cells: number }) => sum + g.cells, 0)).toBe(cells.rejected);
    }
    // Over the destination, 12 m aside, nothing holds the load on the ways that the stages draw: no stand serves both.
    expect(answer.stands).toEqual([]);
    expect(got.status).toBe(1);

    const alone = ["stand", "-", "--cell", "2", "--over", "present", "--json"];
    const one = JSON.parse(gantline(alone, TEXT).stdout);
    expect(one.stands.length).toBeGreaterThan(0);
    for (const { pose, headingRad, turntable, figures, alsoServes } of one.stands) {
      // JSON writes what is no number as null.
      const told = [...turntable, headingRad, pose.bearingRad, pose.elevationRad, pose.lengthM, figures.lengthM];
      expect(told.every((x) => typeof x === "number")).toBe(true);
      expect(alsoServes).toEqual([]);
    }
  });

  it("says of figures of stands that fail that they do", () => {
    const gear = crossing.gear.map((g) => (g.kind === "rope" ? { ...g, lengthsM: [25, 25] } : g));
    const got = gantline(["stand", "-", "--cell", "2", "--no-advice"], JSON.stringify({ ...crossing, gear }));
    expect(got.status).toBe(1);
    expect(got.stdout).toContain("None of the stands swept holds through the whole evolution.");
    expect(got.stdout).toMatch(/lowest tip load +stand \d+: .* \(fails\)/);
    expect(got.stdout).not.toContain("To paint");
  });

  it("looks for single changes wherever no stand fits, and says to within how much", () => {
    const [yard] = crossing.scene.parking;
    const outline = [
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
    ];
    const tiny = { ...crossing, scene: { ...crossing.scene, parking: [{ ...yard, outline }] } };
    const got = gantline(["stand", "-", "--cell", "1"], JSON.stringify(tiny));
    expect(got.status).toBe(1);
    expect(got.stdout).toMatch(
      /Make the ground beside "[^"]+" fit to stand on, out to [\d.]+\sm\. To within 0\.10\sm\./,
    );
  });

  it("says what is wrong with what was asked, and with a plan that cannot be searched", () => {
    for (const [args, says] of [
      [["--vehicle", "none-such"], /There is no vehicle "none-such" here: plan, /],
      [["--over", "the moon"], /There is no place "the moon" here: present, /],
      [["--cell", "0"], /A cell is 0\.1 to 5 m/],
    ] as const) {
      const got = gantline(["stand", "-", ...args], TEXT);
      expect(got.status).toBe(2);
      expect(got.stderr).toMatch(says);
    }
    const bare = { ...crossing, scene: { ...crossing.scene, parking: [] } };
    const got = gantline(["stand", "-"], JSON.stringify(bare));
    expect(got.status).toBe(2);
    expect(got.stderr).toContain("scene.parking: got no parking ground");
  });
});
