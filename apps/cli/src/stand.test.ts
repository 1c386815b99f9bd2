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
    expect(got.stdout).toMatch(/most room +stand \d+: [\d.]+\sm off any way, of those listed\n/);
    expect(got.stdout).toMatch(/toward 90\.0°: bearing [\d.]+°, inclinometer [\d.]+°, length [\d.]+\sm, used \d/);
    expect(readFileSync(map, "utf8")).toContain("raised and slewed");
    expect(readFileSync(map, "utf8")).toMatch(/^<svg[^>]*>[\s\S]*<\/svg>\s*$/);
  });

  it("refuses a figure of the map that it does not know or has no file for", () => {
    const map = join(folder, "refused.svg");
    const unknown = gantline(["stand", "-", "--svg", map, "--figure", "nicest"], TEXT);
    expect([unknown.status, unknown.stderr]).toEqual([2, expect.stringContaining('There is no figure "nicest"')]);
    expect(gantline(["stand", "-", "--figure", "clearest"], TEXT).stderr).toContain("goes with --svg FILE");
  });

  describe("with the department's own vehicles, by the plans they are in", () => {
    const { aerial } = crossing;
    const { device } = aerial;
    const vehicleFile = (name: string, of: Partial<typeof device>): string => {
      const file = join(folder, `${name}.json`);
      writeFileSync(file, JSON.stringify({ ...crossing, aerial: { ...aerial, device: { ...device, ...of } } }));
      return file;
    };
    const own = vehicleFile("own", { id: "own-ladder", name: "Own ladder", example: false });
    const sameId = vehicleFile("same-id", { name: "Second ladder" });
    const rows = device.tipRating.rows.map((r) => ({ ...r, ratedTipLoadN: (r.ratedTipLoadN ?? 0) / 10 }));
    /** The plan's own vehicle may carry a tenth of what it may: no stand is found for it. */
    const weak = JSON.stringify({
      ...crossing,
      aerial: { ...aerial, device: { ...device, tipRating: { ...device.tipRating, rows } } },
    });

    it("advises to bring one of them where it would do, and says which is not tried", () => {
      const got = gantline(["stand", "-", "--cell", "2", "--vehicles-from", `${sameId},${own}`], weak);
      expect(got.stderr).toBe("");
      expect(got.stdout).toContain("  fits    Bring another vehicle: Own ladder.\n");
      expect(got.stdout).toContain(
        `Not tried: "Second ladder" of ${sameId}. Its id "${device.id}" is that of "${device.name}" of the plan, which is tried: give it an id of its own.\n`,
      );
    });

    it("tries one that is named, says why not elsewhere and what else, and names what is not tried, as JSON", () => {
      const again = vehicleFile("again", { id: "own-ladder", name: "Third ladder" });
      const vehicles = ["--vehicle", "plan", "--vehicles-from", `${own},${again},${own}`];
      const got = gantline(["stand", "-", "--cell", "2", "--no-advice", "--json", ...vehicles], weak);
      expect(got.stderr).toBe("");
      const answer = JSON.parse(got.stdout);
      // The same vehicle given twice is not passed over: it is tried.
      expect(answer.passedOver).toEqual([
        {
          file: again,
          vehicle: "own-ladder",
          name: "Third ladder",
          insteadOf: "Own ladder",
          insteadFrom: own,
          says: expect.stringMatching(/^Not tried: "Third ladder" of .* is that of "Own ladder" of .*own\.json, which/),
        },
      ]);
      const [{ governs, places }] = answer.vehicles;
      const told = (reason: { check: string; value: number; unit: string } | null): boolean =>
        reason === null || (typeof reason.check === "string" && typeof reason.unit === "string");
      expect(governs.length).toBeGreaterThan(2);
      for (const { nearest, other } of governs) {
        expect(told(nearest) && told(other)).toBe(true);
        expect(other === null || other.check !== nearest.check || other.thingId !== nearest.thingId).toBe(true);
      }
      expect(governs.some((g: { other: unknown }) => g.other !== null)).toBe(true);
      for (const { reason, otherReason } of places) {
        expect(told(otherReason)).toBe(true);
        if (otherReason === null) continue;
        expect([reason.check, reason.thingId]).not.toEqual([otherReason.check, otherReason.thingId]);
      }
      const others = places.filter((p: { otherReason: unknown }) => p.otherReason !== null);
      expect(others.length).toBeGreaterThan(0.5 * places.length);
      // What governs is told with the reasons of the place that comes nearest to it.
      for (const { nearest, other } of governs)
        expect(places).toContainEqual(expect.objectContaining({ reason: nearest, otherReason: other }));
    });

    it("names the file that it cannot read", () => {
      const broken = join(folder, "broken.json");
      writeFileSync(broken, "{");
      const refused = gantline(["stand", "-", "--vehicles-from", `${own},${broken}`], TEXT);
      expect([refused.status, refused.stderr]).toEqual([2, expect.stringContaining(`--vehicles-from ${broken}: `)]);
    });
  });

  it("answers in SI as JSON, for several vehicles and places", () => {
    const over = ["--over", "present,destination"];
    const { scene, evolution } = crossing;
    const destination = { name: "Ambulance", position: [12, 10.6, 0] as [number, number, number] };
    // Without stages: what the tip carries is that of the load as it hangs.
    const still = { ...crossing, scene: { ...scene, destination }, evolution: { ...evolution, stages: [] } };
    const args = ["stand", "-", "--cell", "2", "--vehicle", "all", ...over, "--no-advice", "--json"];
    const got = gantline(args, JSON.stringify(still));
    const answer = JSON.parse(got.stdout);
    expect(got.status).toBe(answer.fits ? 0 : 1);
    expect(answer.passedOver).toEqual([]);
    expect(answer.vehicles.map((v: { vehicle: string }) => v.vehicle)).toHaveLength(3);
    expect(answer.vehicles[0].aims.map((a: { id: string }) => a.id)).toEqual(["present", "destination"]);
    for (const { cells, governs, places } of answer.vehicles) {
      expect(places).toHaveLength(77);
      for (const { status, reason } of places) expect(reason === null).toBe(status === "feasible");
      // 14 m × 21 m of yard in cells of 2 m: 7 × 11.
      expect(cells.feasible + cells.unknown + cells.rejected).toBe(77);
      expect(governs.reduce((sum: number, g: { cells: number }) => sum + g.cells, 0)).toBe(cells.rejected);
    }
  });

  describe("where the ropes are too short for every stand", () => {
    const gear = crossing.gear.map((g) => (g.kind === "rope" ? { ...g, lengthsM: [25, 25] } : g));
    const short = JSON.stringify({ ...crossing, gear });

    it("says of figures of stands that fail that they do", () => {
      const got = gantline(["stand", "-", "--cell", "2", "--no-advice"], short);
      expect(got.status).toBe(1);
      expect(got.stdout).toContain("None of the stands swept holds through the whole evolution.");
      expect(got.stdout).toMatch(/lowest tip load +stand \d+: .* \(fails\)/);
      expect(got.stdout).not.toContain("To paint");
    });

    it("tells the stands in SI as JSON, and draws the map by a figure", () => {
      const map = join(folder, "clearest.svg");
      const args = ["stand", "-", "--cell", "2", "--no-advice", "--json", "--svg", map, "--figure", "clearest"];
      const one = JSON.parse(gantline(args, short).stdout);
      expect(readFileSync(map, "utf8")).toContain("most clearance beyond what is asked: ");
      expect(one.stands.length).toBeGreaterThan(0);
      for (const { pose, headingRad, turntable, figures, alsoServes } of one.stands) {
        // JSON writes what is no number as null.
        const told = [...turntable, headingRad, pose.bearingRad, pose.elevationRad, pose.lengthM, figures.lengthM];
        expect(told.every((x) => typeof x === "number")).toBe(true);
        expect(alsoServes).toEqual([]);
      }
    });
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
