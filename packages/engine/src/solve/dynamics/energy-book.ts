import { lendFloats } from "../../numerics/lent-floats.ts";
import type { CompiledSystem } from "./compiled-system.ts";
import type { EnergyBook } from "./let-go-types.ts";
import { flowOver, type RopeChain, strainOf, sum } from "./rope-chain.ts";

/** What a step takes out of motion, stretch and height, kept apart by where it goes. */
export interface Ledger {
  /** Notes forces and ways of the state last evaluated, as the first, middle or last of a step. */
  readonly note: (place: 0 | 1 | 2) => void;
  /** Adds up a step from its three notes. */
  readonly addStep: () => void;
  /** Stretch given up by rope that shifts over sheaves at once, J. */
  readonly addShift: (energyJ: number) => void;
  readonly addHit: (energyJ: number) => void;
  readonly addLetGo: (energyJ: number) => void;
  /** The book at the end, from the energies of motion, stretch and height, J. */
  readonly close: (startJ: number, kineticJ: number, strainJ: number, potentialJ: number) => EnergyBook;
}

/** Where less than this changes hands nothing happens, J. */
const LEAST_J = 1e-3;

type Column = "frictionJ" | "brakeJ" | "handsJ" | "dampingJ";

/**
 * Force times way over a step, both read at its ends and its middle: ∫ G dF by Simpson's rule, F' from the parabola
 * through the three; where rope began to move within the step, by what the force is while it moves. So the book is kept by
 * itself, and that it closes says something.
 */
export function energyLedger(rig: CompiledSystem): Ledger {
  const columns: Column[] = rig.lines.flatMap(({ chain: { lengthM, end } }) => [
    ...Array.from({ length: lengthM.length - 1 }, (): Column => "frictionJ"),
    end === "hands" ? "handsJ" : "brakeJ",
    "dampingJ" as const,
  ]);
  const force = [0, 1, 2].map(() => lendFloats(columns.length));
  const way = [0, 1, 2].map(() => lendFloats(columns.length));
  const lost = { frictionJ: 0, brakeJ: 0, handsJ: 0, dampingJ: 0, hitsJ: 0, letGoJ: 0 };

  return {
    note(place) {
      const g = force[place]!;
      const w = way[place]!;
      let at = 0;
      for (const { chain, gone } of rig.lines) {
        const last = chain.lengthM.length - 1;
        if (gone) {
          g.fill(0, at, at + last + 2);
          at += last + 2;
          continue;
        }
        for (let i = 1; i <= last; i++) {
          const lossless = chain.loss[i] === 0;
          g[at] = lossless ? 0 : givenUp(chain, i) - givenUp(chain, i - 1);
          w[at++] = lossless ? 0 : flowOver(chain, i);
        }
        const paidOut = chain.end === "fixed" ? 0 : -flowOver(chain, last + 1);
        g[at] = givenUp(chain, last) + chain.viscousN;
        w[at++] = paidOut;
        g[at] = chain.viscousN;
        w[at++] = chain.dampingNsM === 0 ? 0 : sum(chain.lengthM) - paidOut;
      }
    },
    addStep() {
      for (let i = 0; i < columns.length; i++) {
        const f0 = way[0]![i]!;
        const fm = way[1]![i]! - f0;
        const f1 = way[2]![i]! - f0;
        if (fm === 0 && f1 === 0) continue;
        const g0 = force[0]![i]!;
        const gm = force[1]![i]!;
        const g1 = force[2]![i]!;
        lost[columns[i]!] +=
          columns[i] !== "dampingJ" && (4 * fm - f1) * f1 < 0
            ? // It began to move within the step, since a parabola would have it go backward first: force and way from there.
              fm * gm + (f1 - fm) * (fm === 0 ? g1 : 0.5 * (gm + g1))
            : (g0 * (4 * fm - f1) + 4 * gm * f1 + g1 * (3 * f1 - 4 * fm)) / 6;
      }
    },
    addShift(energyJ) {
      lost.frictionJ += energyJ;
    },
    addHit(energyJ) {
      lost.hitsJ += energyJ;
    },
    addLetGo(energyJ) {
      lost.letGoJ += energyJ;
    },
    close(startJ, kineticJ, strainJ, potentialJ) {
      const terms = [kineticJ, strainJ, potentialJ, ...Object.values(lost)];
      const closureJ = terms.reduce((a, b) => a + b, -startJ);
      const greatest = Math.max(LEAST_J, Math.abs(startJ), ...terms.map(Math.abs));
      return {
        startJ,
        kineticJ,
        strainJ,
        potentialJ,
        ...lost,
        closureJ,
        closureShare: Math.abs(closureJ) / greatest,
      };
    },
  };
}

/** Energy that a metre of rope without tension gives up or takes along as it leaves a segment held at its length, J/m: T + T²/2EA. */
function givenUp({ tensionN, viscousN, stiffnessN }: RopeChain, segment: number): number {
  const elastic = tensionN[segment]! - viscousN;
  return stiffnessN === 0 ? elastic : elastic + (elastic * elastic) / (2 * stiffnessN);
}

export interface Energies {
  readonly kineticJ: number;
  readonly strainJ: number;
  readonly potentialJ: number;
}

/** Energies of the state last evaluated, J; height and steady forces counted from the start. */
export function energiesOf(rig: CompiledSystem): Energies {
  let kineticJ = 0;
  let strainJ = 0;
  let potentialJ = 0;
  for (const { node, massKg, steadyN, startM, gives } of rig.movers) {
    let given = 0;
    for (let c = 0; c < 3; c++) {
      const moved = rig.positionM[3 * node + c]! - startM[c]!;
      kineticJ += 0.5 * massKg * rig.velocityMS[3 * node + c]! ** 2;
      potentialJ -= steadyN[c]! * moved;
      if (gives) given += moved * gives.along[c]!;
    }
    if (gives) {
      strainJ += 0.5 * gives.stiffnessNM * given * given;
      potentialJ -= gives.startN * given;
    }
  }
  if (rig.rider)
    for (let c = 0; c < 3; c++)
      potentialJ -= rig.rider.steadyN[c]! * (rig.positionM[3 * rig.rider.node + c]! - rig.rider.startM[c]!);
  for (const { chain, gone } of rig.lines) if (!gone) strainJ += strainOf(chain);
  return { kineticJ, strainJ, potentialJ };
}
