import { addScaled, asSite, norm, type SiteVector, subtract, unit, ZERO } from "@gantline/engine";
import type { TravelCase } from "../evaluation.ts";
import type { GearOf } from "../schema/gear.ts";
import type { Plan } from "../schema/plan.ts";
import type { MainLine, Tagline, Tether } from "../schema/rig.ts";
import { bridleLegs } from "./bridle.ts";
import { anchorStrength, hitched, knotted, type Strength, strengthOf } from "./component-strengths.ts";
import { gearOf } from "./gear-of.ts";
import type { LaidRig } from "./lay-lines.ts";
import { type MainForces, mainForces, unsolvedForces } from "./main-forces.ts";
import { type RigState, sheaveOf } from "./rig-state.ts";
import type { LoadSum } from "./sum-load.ts";
import { tetherHandN } from "./tether-hand.ts";

/** One part of a load path and what it carries. */
export interface Component extends Strength {
  readonly id: string;
  /** "Main A, sheave at the tip". */
  readonly subject: string;
  /** Worst over the travel cases, N; null: not known. */
  readonly forceN: number | null;
  readonly at: SiteVector;
  readonly field: string;
}

/** Every component in every load path, with the force it carries. */
export function listComponents(
  plan: Plan,
  state: RigState,
  sum: LoadSum,
  cases: readonly TravelCase[],
): readonly Component[] {
  const total = state.mains.reduce(
    (s, m) => addScaled(s, unit(subtract(sheaveOf(m), state.yoke)), m.tensionsN.raise[0] ?? 0),
    ZERO,
  );
  return [
    ...loadComponents(plan, { yokeN: norm(total), weightN: sum.weightN }, state.yoke),
    ...state.mains.flatMap((m, i) =>
      mainComponents(plan, m.laid.line, m.laid.rope, mainForces(m, cases), `rig.mainLines[${i}]`),
    ),
    ...state.tags.flatMap((t, i) => tagComponents(plan, t.laid.line, t.tensionN, state.yoke, i)),
    ...(state.tether
      ? tetherComponents(
          plan,
          state.tether.laid.line,
          state.tether.tensionN,
          tetherHandN(state.tether),
          state.tether.pulleyAt,
        )
      : []),
  ];
}

/** The same components where nothing could be solved: what each carries is not known. */
export function listUnsolvedComponents(plan: Plan, laid: LaidRig): readonly Component[] {
  const { load, mainLines, taglines, tether } = plan.rig;
  const yoke = asSite(load.positionM);
  return [
    ...loadComponents(plan, { yokeN: null, weightN: null }, yoke),
    ...mainLines.flatMap((line, i) => {
      const forces = unsolvedForces(line, laid.mains.find((m) => m.line.id === line.id) ?? null, yoke);
      return mainComponents(plan, line, gearOf(plan, "rope", line.rope), forces, `rig.mainLines[${i}]`);
    }),
    ...taglines.flatMap((line, i) => tagComponents(plan, line, null, yoke, i)),
    ...(tether ? tetherComponents(plan, tether, null, null, yoke) : []),
  ];
}

function loadComponents(
  plan: Plan,
  { yokeN, weightN }: { readonly yokeN: number | null; readonly weightN: number | null },
  yoke: SiteVector,
): Component[] {
  const { load } = plan.rig;
  const legs = bridleLegs(plan, weightN);
  const part = (id: string, subject: string, forceN: number | null, strength: Strength, field: string): Component =>
    component(`load/${id}`, subject, forceN, yoke, strength, `rig.load.${field}`);
  const { sling, connector } = load.bridle;
  const parts = [
    part("yoke", "Yoke", yokeN, strengthOf(gearOf(plan, "yoke", load.yoke)), "yoke"),
    part("bridle.leg", "Bridle leg", legs.forceN, strengthOf(gearOf(plan, "sling", sling)), "bridle.sling"),
    part(
      "bridle.connector",
      "Bridle leg, connector",
      legs.forceN,
      strengthOf(gearOf(plan, "connector", connector)),
      "bridle.connector",
    ),
  ];
  if (load.litter !== null)
    parts.push(part("litter", "Litter", weightN, strengthOf(gearOf(plan, "litter", load.litter)), "litter"));
  return parts;
}

/** Written out: several thousand are made in a sweep, and spreading objects into each other took a good part of it. */
const component = (
  id: string,
  subject: string,
  forceN: number | null,
  at: SiteVector,
  { strengthN, basis, reductions, strengthSource }: Strength,
  field: string,
): Component => ({ id, subject, forceN, at, strengthN, basis, reductions, strengthSource, field });

function mainComponents(
  plan: Plan,
  line: MainLine,
  rope: GearOf<"rope"> | null,
  { load, highestN, tip, redirects, brake }: MainForces,
  field: string,
): Component[] {
  const part = (
    id: string,
    what: string,
    forceN: number | null,
    at: SiteVector,
    strength: Strength,
    at2: string,
  ): Component => component(`${line.id}/${id}`, `${line.name}, ${what}`, forceN, at, strength, `${field}.${at2}`);
  const knot = gearOf(plan, "knot", line.loadKnot);
  const connector = gearOf(plan, "connector", line.loadConnector);
  const parts = [
    part("rope", "rope", highestN, tip.at, strengthOf(rope), "rope"),
    part(
      "knot",
      `${knot?.name.toLowerCase() ?? "knot"} at the yoke`,
      load.forceN,
      load.at,
      knotted(rope, knot),
      "loadKnot",
    ),
    part("connector", "connector at the yoke", load.forceN, load.at, strengthOf(connector), "loadConnector"),
    part(
      "tip.sheave",
      "sheave at the tip",
      tip.forceN,
      tip.at,
      strengthOf(gearOf(plan, "sheave", line.tip.sheave)),
      "tip.sheave",
    ),
    part(
      "tip.connector",
      "connector at the tip",
      tip.forceN,
      tip.at,
      strengthOf(gearOf(plan, "connector", line.tip.connector)),
      "tip.connector",
    ),
  ];
  if (line.tip.sling !== null)
    parts.push(
      part(
        "tip.sling",
        "sling at the tip",
        tip.forceN,
        tip.at,
        hitched(plan, line.tip.sling, line.tip.hitch),
        "tip.sling",
      ),
    );
  for (const [k, redirect] of line.redirects.entries()) {
    const { at, forceN: force } = redirects[k] ?? tip;
    const name = redirect.name.toLowerCase();
    const here = `redirects[${k}]`;
    parts.push(
      part(
        `${redirect.id}.sheave`,
        `${name}, sheave`,
        force,
        at,
        strengthOf(gearOf(plan, "sheave", redirect.sheave)),
        `${here}.sheave`,
      ),
      part(
        `${redirect.id}.connector`,
        `${name}, connector`,
        force,
        at,
        strengthOf(gearOf(plan, "connector", redirect.connector)),
        `${here}.connector`,
      ),
      part(
        `${redirect.id}.anchor`,
        `${name}, anchor`,
        force,
        at,
        anchorStrength(plan, redirect.anchorage),
        `${here}.anchorage`,
      ),
    );
    if (redirect.sling !== null)
      parts.push(
        part(
          `${redirect.id}.sling`,
          `${name}, sling`,
          force,
          at,
          hitched(plan, redirect.sling, redirect.hitch),
          `${here}.sling`,
        ),
      );
  }
  const { at: brakeAt, forceN: end } = brake;
  parts.push(
    part("brake", "brake", end, brakeAt, strengthOf(gearOf(plan, "brake", line.brake.device)), "brake.device"),
    part(
      "brake.connector",
      "brake, connector",
      end,
      brakeAt,
      strengthOf(gearOf(plan, "connector", line.brake.connector)),
      "brake.connector",
    ),
    part("brake.anchor", "brake, anchor", end, brakeAt, anchorStrength(plan, line.brake.anchorage), "brake.anchorage"),
  );
  return parts;
}

function tagComponents(plan: Plan, line: Tagline, forceN: number | null, at: SiteVector, i: number): Component[] {
  const rope = gearOf(plan, "rope", line.rope);
  const knot = gearOf(plan, "knot", line.knot);
  const part = (id: "rope" | "knot" | "connector", what: string, strength: Strength): Component =>
    component(`${line.id}/${id}`, `${line.name}, ${what}`, forceN, at, strength, `rig.taglines[${i}].${id}`);
  return [
    part("rope", "rope", strengthOf(rope)),
    part("knot", knot?.name.toLowerCase() ?? "knot", knotted(rope, knot)),
    part("connector", "connector", strengthOf(gearOf(plan, "connector", line.connector))),
  ];
}

function tetherComponents(
  plan: Plan,
  line: Tether,
  pullN: number | null,
  handN: number | null,
  at: SiteVector,
): Component[] {
  const rope = gearOf(plan, "rope", line.rope);
  const knot = gearOf(plan, "knot", line.knot);
  const part = (
    id: "rope" | "knot" | "connector" | "pulley",
    what: string,
    forceN: number | null,
    strength: Strength,
  ): Component => component(`${line.id}/${id}`, `${line.name}, ${what}`, forceN, at, strength, `rig.tether.${id}`);
  return [
    part("rope", "rope of the tackle", handN, strengthOf(rope)),
    part("knot", knot?.name.toLowerCase() ?? "knot", handN, knotted(rope, knot)),
    part("connector", "connector", pullN, strengthOf(gearOf(plan, "connector", line.connector))),
    part("pulley", "riding pulley", pullN, strengthOf(gearOf(plan, "sheave", line.pulley))),
  ];
}
