import { describe, expect, it } from "vitest";
import { readNetworks } from "../rope/read-networks.ts";
import { answerNetworks } from "./answer-networks.ts";
import { solveNetwork } from "./solve-network.ts";

const hanging = JSON.parse(`{
  "nodes": { "load": { "position": [0, 0, 5], "free": true, "massKg": 100 }, "anchor": { "position": [0, 0, 10] } },
  "lines": { "rope": { "through": ["load", "anchor"], "lengthM": 4, "axialStiffnessN": 50000 } } }`);
const falling = { ...hanging, lines: {} };

function printed(json: unknown) {
  const read = readNetworks(json);
  if (!read.ok) throw new Error("not read");
  return answerNetworks(
    read.networks.map((network) => solveNetwork(network)),
    read.many,
  );
}

describe("answerNetworks", () => {
  it("prints one answer for one network, as the interface has it", () => {
    const { output, exitStatus } = printed(hanging);
    expect(exitStatus).toBe(0);
    expect(output).toEqual({
      ok: true,
      residualN: expect.closeTo(0, 6),
      nodes: {
        load: { position: [0, 0, expect.closeTo(10 - 4 * (1 + 980.665 / 50000), 9)] },
        anchor: { position: [0, 0, 10] },
      },
      lines: {
        rope: {
          tensionsN: [expect.closeTo(980.665, 6)],
          slack: false,
          segmentsM: [expect.closeTo(4.0784532, 9)],
          unstretchedM: 4,
        },
      },
      forcesOnFixedN: { anchor: [0, 0, expect.closeTo(-980.665, 6)] },
    });
  });

  it("prints a list for a list, in order, and fails if any in it fails", () => {
    const { output, exitStatus } = printed([hanging, falling]);
    expect(exitStatus).toBe(1);
    expect(output).toMatchObject([{ ok: true }, { ok: false, code: "nothing-holds", where: "load" }]);
    expect(Object.keys((output as readonly object[])[1]!).sort()).toEqual(["code", "hint", "ok", "residualN", "where"]);
    expect(printed([])).toEqual({ output: [], exitStatus: 0 });
    expect(Array.isArray(printed([hanging]).output)).toBe(true);
  });

  it("is JSON through and through", () => {
    const { output } = printed([hanging, falling]);
    expect(JSON.parse(JSON.stringify(output))).toEqual(output);
  });
});
