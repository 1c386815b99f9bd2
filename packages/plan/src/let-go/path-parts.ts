import { lerp } from "@gantline/engine";
import { type Component, listComponents } from "../rig/components.ts";
import { gearOf } from "../rig/gear-of.ts";
import { type MainState, type RigState, sheaveOf } from "../rig/rig-state.ts";
import type { SolvedPlan } from "../solve-plan.ts";
import { anchorParts } from "./anchor-parts.ts";
import type { PartEffect, PathPart } from "./path-part.ts";

const cutting = (cut: readonly string[]): PartEffect => ({ kind: "goes", cut, lost: [] });

/** Every part, anchor and pair of hands in the load paths, each with what hangs on it and what its loss does. */
export function pathParts(situation: SolvedPlan): readonly PathPart[] {
  const { plan, state, sum, cases } = situation;
  if (state === null) return [];
  const components = listComponents(plan, state, sum, cases).filter((c) => !c.id.endsWith(".anchor"));
  return [
    ...components.flatMap((c) => partOf(situation, state, c)),
    ...anchorParts(state),
    ...riggingPoints(state),
    ladder(situation, state),
    ...hands(situation, state),
    everyone(situation, state),
  ];
}

const allLines = (state: RigState): readonly string[] =>
  [...state.mains, ...state.tags, ...(state.tether ? [state.tether] : [])].map((l) => l.laid.line.id);
const mainIds = (state: RigState): readonly string[] => state.mains.map((m) => m.laid.line.id);

function partOf({ plan }: SolvedPlan, state: RigState, { id, subject, at }: Component): readonly PathPart[] {
  const base = { id, subject, at, kind: "part" as const };
  const [owner = "", part = ""] = id.split("/");
  if (owner === "load") {
    const lines = allLines(state);
    const legs = plan.rig.load.bridle.legs;
    const effect: PartEffect =
      part.startsWith("bridle") && legs > 1
        ? { kind: "unknown", says: `One of ${legs} legs gone: how the load tips in the others is not in the model.` }
        : cutting(lines);
    return [{ ...base, lines, unavoidable: true, effect }];
  }
  const main = state.mains.find((m) => m.laid.line.id === owner);
  const redirect = main?.laid.line.redirects.find((r) => part.startsWith(`${r.id}.`));
  // A rope that comes off its tip has so much slack that it is counted as gone.
  const effect: PartEffect = redirect
    ? { kind: "goes", cut: [], lost: [{ lineId: owner, placeId: redirect.id }] }
    : cutting([owner]);
  return [{ ...base, lines: [owner], unavoidable: false, effect }];
}

const riggingPoints = ({ mains }: RigState): readonly PathPart[] =>
  [...new Set(mains.map((m) => m.laid.point))].map((point) => {
    const own = mains.filter((m) => m.laid.point === point);
    const lines = own.map((m) => m.laid.line.id);
    const at = own[0]?.laid.pointAt ?? sheaveOf(own[0] as MainState);
    return {
      id: `point/${point.id}`,
      subject: `Rigging point: ${point.name}`,
      kind: "anchor",
      at,
      lines,
      unavoidable: false,
      effect: cutting(lines),
    };
  });

const ladder = ({ geometry }: SolvedPlan, state: RigState): PathPart => ({
  id: "ladder",
  subject: "The ladder",
  kind: "anchor",
  at: lerp(geometry.posed.pivot, geometry.posed.tip, 0.5),
  lines: mainIds(state),
  unavoidable: true,
  effect: cutting(mainIds(state)),
});

/** Hands on taglines and tackle, and on brakes that do not hold by themselves. */
function hands({ plan }: SolvedPlan, state: RigState): readonly PathPart[] {
  const { tether } = state;
  return [
    ...state.tags
      .filter((t) => t.laid.line.drive !== "length")
      .map(
        ({ laid }): PathPart => ({
          id: `${laid.line.id}/hands`,
          subject: `${laid.line.name}, hands`,
          kind: "hands",
          at: laid.handsAt,
          lines: [laid.line.id],
          unavoidable: false,
          effect: cutting([laid.line.id]),
        }),
      ),
    ...(tether && tether.laid.line.drive !== "length"
      ? [
          {
            id: `${tether.laid.line.id}/hands`,
            subject: `${tether.laid.line.name}, hands`,
            kind: "hands" as const,
            at: state.yoke,
            lines: [tether.laid.line.id],
            unavoidable: false,
            effect: cutting([tether.laid.line.id]),
          },
        ]
      : []),
    ...state.mains.map(({ laid }): PathPart => {
      const { line } = laid;
      const holds = gearOf(plan, "brake", line.brake.device)?.holdsHandsOff ?? null;
      return {
        id: `${line.id}/brake.hands`,
        subject: `${line.name}, hands on the brake`,
        kind: "hands",
        at: laid.anchors.at(-1)?.at ?? laid.pointAt,
        lines: [line.id],
        unavoidable: false,
        effect:
          holds === null
            ? { kind: "unknown", says: "Not known whether this brake holds with no hand on it." }
            : holds
              ? { kind: "none", says: "The brake holds with no hand on it, by what is entered: nothing moves." }
              : cutting([line.id]),
      };
    }),
  ];
}

/** Everyone lets go at once. */
function everyone(situation: SolvedPlan, state: RigState): PathPart {
  const all = hands(situation, state);
  const cut = [...new Set(all.flatMap(({ effect }) => (effect.kind === "goes" ? effect.cut : [])))];
  const unknown = all.find(({ effect }) => effect.kind === "unknown");
  const nothingHolds = mainIds(state).every((id) => cut.includes(id));
  return {
    id: "everyone",
    subject: "Everyone lets go at once",
    kind: "everyone",
    at: state.yoke,
    lines: allLines(state),
    unavoidable: false,
    effect:
      unknown && !nothingHolds
        ? unknown.effect
        : cut.length === 0
          ? { kind: "none", says: "Every line holds with no hand on it, by what is entered: nothing moves." }
          : cutting(cut),
  };
}
