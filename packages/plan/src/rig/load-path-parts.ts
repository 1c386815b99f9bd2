import type { Plan } from "../schema/plan.ts";
import type { MainLine, Tagline, Tether } from "../schema/rig.ts";
import { anchorStrength, hitched, knotted, type Strength, strengthOf } from "./component-strengths.ts";
import { gearOf } from "./gear-of.ts";
import type { ForceAt, MainForces } from "./main-forces.ts";

/** One part of a load path: what it is, how strong, and which of the forces there are it carries. */
export interface Part<F> extends Strength {
  readonly id: string;
  readonly subject: string;
  readonly field: string;
  readonly carries: (forces: F) => ForceAt;
}

/** What the parts at the load carry. */
export type LoadForces = Readonly<Record<"yoke" | "leg" | "weight", ForceAt>>;
/** What the parts of a tagline carry: at the load, and the most anywhere in its rope. */
export type TagForces = Readonly<Record<"load" | "most", ForceAt>>;
/** What the parts of the tether carry: at its pulley, and in the rope of its tackle. */
export type TetherForces = Readonly<Record<"pull" | "hand", ForceAt>>;

const part = <F>(
  id: string,
  subject: string,
  carries: (forces: F) => ForceAt,
  { strengthN, basis, reductions, strengthSource }: Strength,
  field: string,
): Part<F> => ({ id, subject, field, strengthN, basis, reductions, strengthSource, carries });

interface Kept {
  readonly about: readonly unknown[];
  readonly parts: readonly Part<never>[];
}
const kept = new WeakMap<object, Kept>();

/** The parts of a line, listed once for as long as nothing changes that they rest on: a sweep asks at every moment. */
function once<F>(of: object, plan: Plan, and: readonly unknown[], list: () => readonly Part<F>[]): readonly Part<F>[] {
  const about = [plan.gear, plan.policy, plan.aerial.device, ...and];
  const known = kept.get(of);
  if (known?.about.every((a, i) => a === about[i])) return known.parts as readonly Part<F>[];
  const parts = list();
  kept.set(of, { about, parts });
  return parts;
}

export const loadParts = (plan: Plan): readonly Part<LoadForces>[] => {
  const { load } = plan.rig;
  return once(load.bridle, plan, [load.yoke, load.litter], () => {
    const { sling, connector } = load.bridle;
    const own = (id: string, subject: string, carries: (f: LoadForces) => ForceAt, strength: Strength, field: string) =>
      part(`load/${id}`, subject, carries, strength, `rig.load.${field}`);
    const leg = (f: LoadForces): ForceAt => f.leg;
    const parts = [
      own("yoke", "Yoke", (f) => f.yoke, strengthOf(gearOf(plan, "yoke", load.yoke)), "yoke"),
      own("bridle.leg", "Bridle leg", leg, strengthOf(gearOf(plan, "sling", sling)), "bridle.sling"),
      own(
        "bridle.connector",
        "Bridle leg, connector",
        leg,
        strengthOf(gearOf(plan, "connector", connector)),
        "bridle.connector",
      ),
    ];
    if (load.litter !== null)
      parts.push(own("litter", "Litter", (f) => f.weight, strengthOf(gearOf(plan, "litter", load.litter)), "litter"));
    return parts;
  });
};

export const mainParts = (plan: Plan, line: MainLine, index: number): readonly Part<MainForces>[] =>
  once(line, plan, [index], () => {
    const rope = gearOf(plan, "rope", line.rope);
    const knot = gearOf(plan, "knot", line.loadKnot);
    const connector = (id: string): Strength => strengthOf(gearOf(plan, "connector", id));
    const own = (id: string, what: string, carries: (f: MainForces) => ForceAt, strength: Strength, field: string) =>
      part(`${line.id}/${id}`, `${line.name}, ${what}`, carries, strength, `rig.mainLines[${index}].${field}`);
    const load = (f: MainForces): ForceAt => f.load;
    const tip = (f: MainForces): ForceAt => f.tip;
    const brake = (f: MainForces): ForceAt => f.brake;
    const parts = [
      own("rope", "rope", (f) => ({ at: f.tip.at, forceN: f.highestN }), strengthOf(rope), "rope"),
      own("knot", `${knot?.name.toLowerCase() ?? "knot"} at the yoke`, load, knotted(rope, knot), "loadKnot"),
      own("connector", "connector at the yoke", load, connector(line.loadConnector), "loadConnector"),
      own("tip.sheave", "sheave at the tip", tip, strengthOf(gearOf(plan, "sheave", line.tip.sheave)), "tip.sheave"),
      own("tip.connector", "connector at the tip", tip, connector(line.tip.connector), "tip.connector"),
    ];
    if (line.tip.sling !== null)
      parts.push(own("tip.sling", "sling at the tip", tip, hitched(plan, line.tip.sling, line.tip), "tip.sling"));
    for (const [k, redirect] of line.redirects.entries()) {
      const { id, sheave, sling, anchorage } = redirect;
      const name = redirect.name.toLowerCase();
      const here = (f: MainForces): ForceAt => f.redirects[k] ?? f.tip;
      const add = (what: string, strength: Strength, at = what): void => {
        parts.push(own(`${id}.${what}`, `${name}, ${what}`, here, strength, `redirects[${k}].${at}`));
      };
      add("sheave", strengthOf(gearOf(plan, "sheave", sheave)));
      add("connector", connector(redirect.connector));
      add("anchor", anchorStrength(plan, anchorage), "anchorage");
      if (sling !== null) add("sling", hitched(plan, sling, redirect));
    }
    const { device, anchorage } = line.brake;
    parts.push(
      own("brake", "brake", brake, strengthOf(gearOf(plan, "brake", device)), "brake.device"),
      own("brake.connector", "brake, connector", brake, connector(line.brake.connector), "brake.connector"),
      own("brake.anchor", "brake, anchor", brake, anchorStrength(plan, anchorage), "brake.anchorage"),
    );
    return parts;
  });

export const tagParts = (plan: Plan, line: Tagline, index: number): readonly Part<TagForces>[] =>
  once(line, plan, [index], () => {
    const rope = gearOf(plan, "rope", line.rope);
    const knot = gearOf(plan, "knot", line.knot);
    const own = (id: "rope" | "knot" | "connector", what: string, by: keyof TagForces, strength: Strength) =>
      part(
        `${line.id}/${id}`,
        `${line.name}, ${what}`,
        (f: TagForces) => f[by],
        strength,
        `rig.taglines[${index}].${id}`,
      );
    return [
      own("rope", "rope", "most", strengthOf(rope)),
      own("knot", knot?.name.toLowerCase() ?? "knot", "load", knotted(rope, knot)),
      own("connector", "connector", "load", strengthOf(gearOf(plan, "connector", line.connector))),
    ];
  });

export const tetherParts = (plan: Plan, line: Tether): readonly Part<TetherForces>[] =>
  once(line, plan, [], () => {
    const rope = gearOf(plan, "rope", line.rope);
    const knot = gearOf(plan, "knot", line.knot);
    const own = (
      id: "rope" | "knot" | "connector" | "pulley",
      what: string,
      by: keyof TetherForces,
      strength: Strength,
    ) => part(`${line.id}/${id}`, `${line.name}, ${what}`, (f: TetherForces) => f[by], strength, `rig.tether.${id}`);
    return [
      own("rope", "rope of the tackle", "hand", strengthOf(rope)),
      own("knot", knot?.name.toLowerCase() ?? "knot", "hand", knotted(rope, knot)),
      own("connector", "connector", "pull", strengthOf(gearOf(plan, "connector", line.connector))),
      own("pulley", "riding pulley", "pull", strengthOf(gearOf(plan, "sheave", line.pulley))),
    ];
  });
