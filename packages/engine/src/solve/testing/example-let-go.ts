import type { LetGoLine, LetGoSystem } from "../dynamics/let-go-types.ts";

/** An example, invented: what differs between runs of it. */
export interface ExampleLetGo {
  /** Of every sheave; 1 is without loss. */
  readonly efficiency?: number;
  /** Slip force of the brakes, N; null: they hold fast. */
  readonly slipsAtN?: number | null;
  readonly dampingNsM?: number;
  /** N/m of the ladder's tip across the ladder; null: it does not give. */
  readonly tipNM?: number | null;
  /** A tether from the load to a pulley that rides the first main's return. */
  readonly tether?: boolean;
}

/**
 * A load of 200 kg on two main lines over two sheaves at a ladder's tip, each back to a redirect and on to a brake, a
 * tagline held by hand and a wall beside it. At rest within some newtons.
 */
export function exampleLetGo(of: ExampleLetGo = {}): LetGoSystem {
  const { efficiency = 1, slipsAtN = null, dampingNsM = 0, tipNM = null, tether = false } = of;
  const main = (side: "left" | "right"): LetGoLine => {
    const rides = tether && side === "left" ? ["rider"] : [];
    return {
      through: ["load", `${side} tip`, ...rides, `${side} redirect`, `${side} brake`],
      axialStiffnessN: 35_000,
      startTensionN: 986,
      dampingNsM,
      efficiency: [efficiency, ...rides.map(() => 1), efficiency],
      travel: "toStart",
      holding: slipsAtN === null ? { kind: "fixed" } : { kind: "brake", slipsAtN },
    };
  };
  const gives = tipNM === null ? {} : { massKg: 40, gives: { along: [-0.94, 0, 0.34] as const, stiffnessNM: tipNM } };
  return {
    nodes: {
      load: { positionM: [9.1, 0, 8], massKg: 200, halfSizeM: [1, 0.4, 0.5] },
      "left tip": { positionM: [9, 0.4, 26], ...gives },
      "right tip": { positionM: [9, -0.4, 26], ...gives },
      "left redirect": { positionM: [0.5, 0.5, 1.5] },
      "right redirect": { positionM: [0.5, -0.5, 1.5] },
      "left brake": { positionM: [-4, 2, 1] },
      "right brake": { positionM: [-4, -2, 1] },
      hand: { positionM: [20, 3, 1] },
      ...(tether ? { rider: { positionM: [4.6, 0.4, 13], massKg: 2 } } : {}),
    },
    lines: {
      left: main("left"),
      right: main("right"),
      tag: { through: ["load", "hand"], axialStiffnessN: null, holding: { kind: "hands", tensionN: 60 } },
      ...(tether
        ? { tether: { through: ["load", "rider"], axialStiffnessN: 30_000, startTensionN: 120, dampingNsM } }
        : {}),
    },
    load: "load",
    stops: { ground: { pointM: [0, 0, 0], normal: [0, 0, 1] }, wall: { pointM: [12, 0, 0], normal: [-1, 0, 0] } },
  };
}
