import type { InputProblem } from "@gantline/engine";
import { closeRatioOf, declare, type Finding } from "../judge.ts";
import { gearOf } from "../rig/gear-of.ts";
import type { Situation } from "../situation.ts";
import type { Rule } from "./rule.ts";

interface Gap {
  readonly id: string;
  readonly subject: string;
  readonly says: string;
  readonly field: string;
}

/** What is not known that the forces rest on? Ratings and strengths that are missing are told by the checks that need them. */
export const missingData: Rule = (s) => [
  ...[...masses(s), ...drag(s), ...ropes(s), ...stretch(s), ...sheaves(s), ...references(s), ...closeness(s)].map(
    untold,
  ),
  ...entryChecks(s.problems),
];

/** Entries that are wrong, as checks: what rests on them is not known. */
export const entryChecks = (problems: readonly InputProblem[]): readonly Finding[] =>
  problems.map((p) =>
    untold({
      id: `entry.${p.path}`,
      subject: `Entry: ${p.path}`,
      says: `${p.path}: got ${p.got}, expected ${p.expected}.`,
      field: p.path,
    }),
  );

const untold = (gap: Gap): Finding =>
  declare(
    {
      id: `missing-data/${gap.id}`,
      rule: "missing-data",
      demand: null,
      limit: null,
      words: () => ({
        subject: gap.subject,
        question: "Is everything known that the forces rest on?",
        reading: [],
        ifOver: [],
        ifUnknown: [gap.says],
        working: { formula: "known: yes or no", terms: [], limitSource: "the plan as entered" },
        field: gap.field,
      }),
    },
    "unknown",
  );

const closeness = ({ plan: { policy } }: Situation): Gap[] =>
  policy.closeRatio.value === null
    ? [
        {
          id: "close-ratio",
          subject: "Close above",
          says: `No ratio is set above which a check counts as close: ${100 * closeRatioOf(policy)} % is used until one is.`,
          field: "policy.closeRatio.value",
        },
      ]
    : [];

const masses = ({ plan }: Situation): Gap[] =>
  plan.rig.load.parts.flatMap((p, i) =>
    p.massKg === null
      ? [
          {
            id: `mass.${p.id}`,
            subject: `Mass of ${p.name}`,
            says: "Mass not known: weigh it, or enter the heaviest it can be.",
            field: `rig.load.parts[${i}].massKg`,
          },
        ]
      : [],
  );

const drag = ({ plan, sum }: Situation): Gap[] =>
  sum.windN === null
    ? [
        {
          id: "wind-force",
          subject: "Wind on the load",
          says: "Left out of the forces: the gust or the load's drag area is not known.",
          field: plan.scene.wind.gustMS === null ? "scene.wind.gustMS" : "rig.load.dragAreaM2",
        },
      ]
    : [];

/** A rope that is not in the cache is told as a wrong entry. */
function ropes({ laid, plan }: Situation): Gap[] {
  const lines = [...laid.mains, ...laid.tags, ...(laid.tether ? [laid.tether] : [])];
  const used = new Set(lines.flatMap(({ rope, ropeNM }) => (rope && ropeNM === null ? [rope] : [])));
  return [...used].map((rope) => ({
    id: `rope-weight.${rope.id}`,
    subject: `Weight of ${rope.name}`,
    says: "What a metre of it weighs is not known: its weight is left out of the forces, and nothing that rests on them is judged.",
    field: `gear[${plan.gear.indexOf(rope)}].linearMassKgM`,
  }));
}

/** Where a force is left over the load hangs by the lengths of its ropes. */
const stretch = ({ state, plan }: Situation): Gap[] =>
  (state?.stiffTaken ?? []).map((rope) => ({
    id: `rope-stretch.${rope.id}`,
    subject: `Stretch of ${rope.name}`,
    says: "How far it stretches is not known. The load hangs a little aside, by the lengths of its ropes; this one is taken as hardly stretching, so that the lines share worst.",
    field: `gear[${plan.gear.indexOf(rope)}].staticStiffnessN`,
  }));

function sheaves({ plan }: Situation): Gap[] {
  const used = new Set(plan.rig.mainLines.flatMap((l) => [l.tip.sheave, ...l.redirects.map((r) => r.sheave)]));
  return [...used].flatMap((id) => {
    const sheave = gearOf(plan, "sheave", id);
    return sheave?.efficiency === null
      ? [
          {
            id: `efficiency.${id}`,
            subject: `Efficiency of ${sheave.name}`,
            says: "Not known: tensions beyond it are shown without friction, and nothing that rests on them is judged.",
            field: "gear",
          },
        ]
      : [];
  });
}

const references = ({ laid }: Situation): Gap[] =>
  laid.missing.map((m, i) => ({
    id: `reference.${i}`,
    subject: m.where,
    says: `${m.where} ${m.says}.`,
    field: m.field,
  }));
