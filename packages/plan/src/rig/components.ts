import { addScaled, norm, type SiteVector, subtract, unit, ZERO } from "@gantline/engine";
import type { TravelCase } from "../evaluation.ts";
import type { Plan } from "../schema/plan.ts";
import { bridleLegs } from "./bridle.ts";
import { anchorStrength, hitched, knotted, type Strength, strengthOf } from "./component-strengths.ts";
import { gearOf } from "./gear-of.ts";
import { type MainState, type RigState, sheaveOf } from "./rig-state.ts";
import { sheavePull } from "./sheave-pull.ts";
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
  return [
    ...loadComponents(plan, state, sum),
    ...state.mains.flatMap((m, i) => mainComponents(plan, m, `rig.mainLines[${i}]`, state.yoke, cases)),
    ...tagComponents(plan, state),
    ...tetherComponents(plan, state),
  ];
}

function loadComponents(plan: Plan, state: RigState, sum: LoadSum): Component[] {
  const { load } = plan.rig;
  const legs = bridleLegs(plan, sum.weightN);
  const total = state.mains.reduce(
    (s, m) => addScaled(s, unit(subtract(sheaveOf(m), state.yoke)), m.tensionsN.raise[0] ?? 0),
    ZERO,
  );
  const part = (id: string, subject: string, forceN: number | null, strength: Strength, field: string): Component =>
    component(`load/${id}`, subject, forceN, state.yoke, strength, `rig.load.${field}`);
  const { sling, connector } = load.bridle;
  const parts = [
    part("yoke", "Yoke", norm(total), strengthOf(gearOf(plan, "yoke", load.yoke)), "yoke"),
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
    parts.push(part("litter", "Litter", sum.weightN, strengthOf(gearOf(plan, "litter", load.litter)), "litter"));
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
  main: MainState,
  field: string,
  yoke: SiteVector,
  cases: readonly TravelCase[],
): Component[] {
  const { line, rope } = main.laid;
  const { nodes } = main;
  // Beyond a sheave of unknown efficiency the tension could be anything.
  const isKnown = (segment: number): boolean => nodes.slice(1, segment + 1).every((n) => n.efficiency !== null);
  const tension = (segment: number): number | null =>
    isKnown(segment) ? Math.max(...cases.map((c) => main.tensionsN[c][segment] ?? 0)) : null;
  const last = nodes.length - 2;
  const highest = isKnown(last) ? Math.max(...nodes.slice(1).map((_, i) => tension(i) ?? 0)) : null;
  const resultant = (node: number): number | null =>
    isKnown(node) ? Math.max(...cases.map((c) => norm(sheavePull(nodes, main.tensionsN[c], node)))) : null;
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
  const tipAt = sheaveOf(main);
  const tipForce = resultant(1);
  const parts = [
    part("rope", "rope", highest, tipAt, strengthOf(rope), "rope"),
    part(
      "knot",
      `${knot?.name.toLowerCase() ?? "knot"} at the yoke`,
      tension(0),
      yoke,
      knotted(rope, knot),
      "loadKnot",
    ),
    part("connector", "connector at the yoke", tension(0), yoke, strengthOf(connector), "loadConnector"),
    part(
      "tip.sheave",
      "sheave at the tip",
      tipForce,
      tipAt,
      strengthOf(gearOf(plan, "sheave", line.tip.sheave)),
      "tip.sheave",
    ),
    part(
      "tip.connector",
      "connector at the tip",
      tipForce,
      tipAt,
      strengthOf(gearOf(plan, "connector", line.tip.connector)),
      "tip.connector",
    ),
  ];
  if (line.tip.sling !== null)
    parts.push(
      part(
        "tip.sling",
        "sling at the tip",
        tipForce,
        tipAt,
        hitched(plan, line.tip.sling, line.tip.hitch),
        "tip.sling",
      ),
    );
  for (const [k, redirect] of line.redirects.entries()) {
    const node = nodes.findIndex((n) => n.kind === "redirect" && n.id === redirect.id);
    const at = nodes[node]?.at ?? tipAt;
    const force = resultant(node);
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
  const end = tension(last);
  const brakeAt = nodes.at(-1)?.at ?? tipAt;
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

function tagComponents(plan: Plan, { tags, yoke }: RigState): Component[] {
  return tags.flatMap(({ laid, tensionN }, i) => {
    const { line, rope } = laid;
    const knot = gearOf(plan, "knot", line.knot);
    const part = (id: "rope" | "knot" | "connector", what: string, strength: Strength): Component =>
      component(`${line.id}/${id}`, `${line.name}, ${what}`, tensionN, yoke, strength, `rig.taglines[${i}].${id}`);
    return [
      part("rope", "rope", strengthOf(rope)),
      part("knot", knot?.name.toLowerCase() ?? "knot", knotted(rope, knot)),
      part("connector", "connector", strengthOf(gearOf(plan, "connector", line.connector))),
    ];
  });
}

function tetherComponents(plan: Plan, { tether }: RigState): Component[] {
  if (tether === null) return [];
  const { line, rope } = tether.laid;
  const knot = gearOf(plan, "knot", line.knot);
  const pull = tether.tensionN;
  const hand = tetherHandN(tether);
  const part = (
    id: "rope" | "knot" | "connector" | "pulley",
    what: string,
    forceN: number | null,
    strength: Strength,
  ): Component =>
    component(`${line.id}/${id}`, `${line.name}, ${what}`, forceN, tether.pulleyAt, strength, `rig.tether.${id}`);
  return [
    part("rope", "rope of the tackle", hand, strengthOf(rope)),
    part("knot", knot?.name.toLowerCase() ?? "knot", hand, knotted(rope, knot)),
    part("connector", "connector", pull, strengthOf(gearOf(plan, "connector", line.connector))),
    part("pulley", "riding pulley", pull, strengthOf(gearOf(plan, "sheave", line.pulley))),
  ];
}
