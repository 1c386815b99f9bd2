import type { Triple } from "../../base/vector.ts";
import { seededRandom } from "../../numerics/seeded-random.ts";
import type { Network, NetworkLine, NetworkNode, Travel } from "../../rope/network.ts";

export interface RandomNetworkOptions {
  /** Chance that a network has sheave loss at all. */
  readonly friction?: number;
  /** Chance that a line has weight. */
  readonly ropeWeight?: number;
  /** Chance that a further line is held by tension. */
  readonly byTension?: number;
  /** Most free nodes, most lines. */
  readonly maxFree?: number;
  readonly maxLines?: number;
  /** Chance that a line which a node hangs from is held by tension too, so that it may not hold. */
  readonly hungByTension?: number;
  /** Chance that a free node has no mass. */
  readonly massless?: number;
  /** Tensions are drawn up to this, N. */
  readonly highestTensionN?: number;
  /** Chance that a further line runs over any nodes, free ones among them. */
  readonly tangled?: number;
  /** Least rope length over the way through places drawn at random; below 1 many blocks are drawn onto each other. */
  readonly shortest?: number;
  /** Range of EA, N, drawn evenly in its logarithm. */
  readonly stiffnessN?: readonly [number, number];
  /** m/s²; 0: what no force pulls on has nothing to hang from a slack line by. */
  readonly gravityMS2?: number;
}

/**
 * A network drawn at random; as the options stand by default, one whose loads cannot fall for ever: each free node is tied by a
 * line held by length to a fixed one.
 *
 * 1 to 6 free nodes, 1 to 8 lines, with slack lines, free sheaves, nodes passed twice, very stiff and very soft ropes,
 * and first guesses that have nothing to do with the answer.
 */
export function randomNetwork(seed: number, options: RandomNetworkOptions = {}): Network {
  const random = seededRandom(seed);
  const between = (low: number, high: number) => low + (high - low) * random();
  const whole = (low: number, high: number) => Math.floor(between(low, high + 1));
  const [softest, stiffest] = options.stiffnessN ?? [2e3, 1e8];
  const loses = random() < (options.friction ?? 0.5);
  const nodes: Record<string, NetworkNode> = {};
  const lines: Record<string, NetworkLine> = {};
  const home: Record<string, Triple> = {};

  const fixed = Array.from({ length: whole(2, 5) }, (_, i) => `f${i}`);
  for (const name of fixed) {
    home[name] = [between(-12, 12), between(-12, 12), between(0, 30)];
    nodes[name] = { position: home[name] };
  }
  const free = Array.from({ length: whole(1, options.maxFree ?? 6) }, (_, i) => `n${i}`);
  for (const name of free) {
    home[name] = [between(-12, 12), between(-12, 12), between(0, 25)];
    const far = random() < 0.3 ? 60 : 5;
    const position = home[name].map((c) => c + between(-far, far)) as unknown as Triple;
    const pulled = random() < 0.3;
    nodes[name] = {
      position,
      free: true,
      massKg: random() < (options.massless ?? 0.03) ? 0 : between(5, 300),
      ...(pulled ? { forceN: [between(-400, 400), between(-400, 400), between(-400, 400)] as Triple } : {}),
    };
  }

  const addLine = (through: string[], byTension: boolean) => {
    let way = 0;
    for (let i = 1; i < through.length; i++) {
      const a = home[through[i - 1]!]!;
      const b = home[through[i]!]!;
      way += Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
    }
    const travel: Travel = loses ? (["toEnd", "toStart", "none"] as const)[whole(0, 2)]! : "none";
    const stiff = softest * (stiffest / softest) ** random();
    lines[`l${Object.keys(lines).length}`] = {
      through,
      travel,
      ...(byTension
        ? {
            tensionN: between(20, options.highestTensionN ?? 400),
            ...(random() < 0.3 ? { axialStiffnessN: stiff } : {}),
          }
        : { lengthM: way * between(options.shortest ?? 0.98, 1.25), axialStiffnessN: stiff }),
      ...(loses ? { efficiency: through.slice(2).map(() => between(0.5, 1)) } : {}),
      ...(random() < (options.ropeWeight ?? 0.2) ? { linearMassKgM: between(0.02, 0.15) } : {}),
    };
  };
  const path = (from: string, pool: readonly string[], inner: number): string[] => {
    const through = [from];
    while (through.length < inner + 2) {
      const next = pool[whole(0, pool.length - 1)]!;
      if (next !== through[through.length - 1]) through.push(next);
    }
    return through;
  };

  // First, each free node hangs from fixed ones: at an end of a line, or on it between two fixed nodes as a free sheave.
  for (const name of free) {
    const through =
      random() < 0.3
        ? [...path(name, fixed, 0).reverse(), ...path(name, fixed, whole(0, 1)).slice(1)]
        : path(name, fixed, whole(0, 2));
    addLine(random() < 0.5 ? through : through.reverse(), random() < (options.hungByTension ?? 0));
  }
  const all = [...fixed, ...free];
  const most = options.maxLines ?? 8;
  for (let more = whole(0, Math.max(0, most - free.length)); more > 0; more--) {
    const from = free[whole(0, free.length - 1)]!;
    addLine(
      path(from, random() < (options.tangled ?? 0.3) ? all : fixed, whole(0, 3)),
      random() < (options.byTension ?? 0.25),
    );
  }
  return { nodes, lines, ...(options.gravityMS2 === undefined ? {} : { gravityMS2: options.gravityMS2 }) };
}
