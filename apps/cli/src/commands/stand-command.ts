import { MAP_FIGURES, type MapShown } from "@gantline/drawing";
import { type StandBand, searchStands, standGrid } from "@gantline/engine";
import {
  adviceInOrder,
  type Device,
  type FoundStands,
  type Plan,
  type StandAim,
  standAdvice,
  standAims,
  standPlacement,
  standQuestion,
  standShortList,
  vehiclesOf,
  withRoom,
  withStand,
} from "@gantline/plan";
import { badInput, badUsage, writeJson } from "../bad-input.ts";
import type { Arguments, Command, Finished } from "../command.ts";
import { openPlan } from "../open-plan.ts";
import { printStands } from "../print-stands.ts";
import { readUnits, UNITS_HELP } from "../read-units.ts";
import { type PassedOver, type StandAnswer, standReport } from "../stand-report.ts";
import { writeStandMaps } from "../write-stand-maps.ts";

const LEAST_CELL_M = 0.1;
const MOST_CELL_M = 5;
/** What the map can show. */
const MAPS: readonly MapShown[] = ["governs", ...MAP_FIGURES];

export const standCommand: Command = {
  name: "stand",
  summary: "search the parking ground for places to stand: the best by each figure, and why not elsewhere",
  help: `gantline stand PLAN|- [--vehicle ID,…|all] [--vehicles-from FILE,…] [--over AIM,…] [--cell M] [--no-advice] [--svg FILE] [--figure NAME] [--units metric|imperial] [--json]

Searches all parking ground of a plan for where the vehicle can stand and how its ladder is posed so that the load hangs over
its place; sweeps the best through the plan's whole evolution with every check; says what governs where it does not fit, and,
where nothing fits, what single change would make it fit, another of these vehicles among them. With several places, one stand must serve all of them.

  --vehicle ID,…            vehicles to try, of the library or of --vehicles-from; "plan" is the plan's own (unless said), "all" every one
  --vehicles-from FILE,…    plan files whose vehicles are there to try as well: the department's own; of one
                            id the first, the plan's own before all; what is passed over is said
  --over AIM,…              present, destination, casualty; where the tip is now unless said, or the destination of a plan without stages
  --cell M                  distance between places looked at, ${LEAST_CELL_M} to ${MOST_CELL_M} m; 0.5 unless said
  --no-advice               do not look for single changes where no stand fits (that takes a minute for each vehicle)
  --svg FILE                write the map; with several vehicles one file each, the vehicle's id in its name
  --figure NAME             what the map of --svg shows: ${MAPS.join(", ")}; what governs unless said
${UNITS_HELP}
  --json                    everything that was found, in SI units, to the last digit

Exit status: 0 a stand fits through the whole evolution; 1 none does, or it cannot be told; 2 the plan cannot be read or
searched, or the file cannot be written.
`,
  options: {
    vehicle: { type: "string" },
    "vehicles-from": { type: "string" },
    over: { type: "string" },
    cell: { type: "string" },
    "no-advice": { type: "boolean" },
    svg: { type: "string" },
    figure: { type: "string" },
    units: { type: "string" },
    json: { type: "boolean" },
  },
  mostPositionals: 1,
  run: stand,
};

async function stand(given: Arguments): Promise<Finished> {
  const { values } = given;
  const system = readUnits(values.units);
  if (system === null) return badUsage("stand", `There are no units "${values.units}": metric or imperial.`);
  const cellM = values.cell === undefined ? null : Number(values.cell);
  if (cellM !== null && !(cellM >= LEAST_CELL_M && cellM <= MOST_CELL_M))
    return badUsage("stand", `A cell is ${LEAST_CELL_M} to ${MOST_CELL_M} m.`);
  const shown = values.figure === undefined ? "governs" : MAPS.find((name) => name === values.figure);
  if (shown === undefined)
    return badUsage("stand", `There is no figure "${values.figure}" to show: ${MAPS.join(", ")}.`);
  if (values.figure !== undefined && values.svg === undefined)
    return badUsage("stand", "--figure is what the map shows: it goes with --svg FILE.");
  const opened = await openPlan("stand", given);
  if ("finished" in opened) return opened.finished;
  const { plan } = opened;
  const others = await vehiclesFrom(values["vehicles-from"], values.json === true);
  if ("finished" in others) return others.finished;
  const all = vehiclesOf(
    plan,
    others.given.map(({ device }) => device),
  );
  const vehicles = chosen(values.vehicle, "vehicle", byName(all));
  if ("sentence" in vehicles) return badUsage("stand", vehicles.sentence);
  const aims = chosen(values.over, "place", new Map(standAims(plan).map((aim) => [aim.id, aim])));
  if ("sentence" in aims) return badUsage("stand", aims.sentence);

  const searched = search(plan, vehicles.list, aims.list, cellM);
  if ("problems" in searched) return badInput(searched.problems, values.json === true);
  const answer = answerOf(plan, searched.found, {
    advise: values["no-advice"] !== true,
    vehicles: all,
    cellM,
    passedOver: passedOver(others.given, all),
  });
  if (typeof values.svg === "string") {
    const complaint = writeStandMaps(plan, answer, { file: values.svg, system, shown });
    if (complaint !== null) return { exitStatus: 2, complaint };
  }
  return {
    exitStatus: answer.entries.some((e) => e.fit === "fits") ? 0 : 1,
    output: values.json === true ? writeJson(standReport(plan, answer)) : printStands(plan, answer, system),
  };
}

/** The vehicles of other plan files, or how the command ends where one cannot be read. */
async function vehiclesFrom(given: string | boolean | undefined, json: boolean) {
  const files = typeof given === "string" ? given.split(",").map((s) => s.trim()) : [];
  const all: GivenVehicle[] = [];
  for (const file of files) {
    const opened = await openPlan("stand", { positionals: [file], values: { json } });
    if ("finished" in opened) {
      const { finished } = opened;
      return { finished: { ...finished, complaint: `--vehicles-from ${file}: ${finished.complaint ?? ""}` } };
    }
    all.push({ file, device: opened.plan.aerial.device });
  }
  return { given: all };
}

interface GivenVehicle {
  readonly file: string;
  readonly device: Device;
}

/** Vehicles of other plan files that are not tried because another one, which is not alike, has their id. */
const passedOver = (given: readonly GivenVehicle[], all: readonly Device[]): readonly PassedOver[] =>
  given.flatMap(({ file, device }) => {
    const tried = all.find((d) => d.id === device.id);
    if (tried === undefined || JSON.stringify(tried) === JSON.stringify(device)) return [];
    const from = given.find((g) => g.device === tried)?.file ?? null;
    return [{ file, vehicle: device.id, name: device.name, insteadOf: tried.name, insteadFrom: from }];
  });

/** The vehicles there are to try by their ids, the plan's own, which is the first, as "plan". */
const byName = (all: readonly Device[]): ReadonlyMap<string, Device> =>
  new Map(all.map((device, i) => [i === 0 ? "plan" : device.id, device]));

/** What was asked for of a list by name, the first of the list where nothing was. */
function chosen<T>(
  given: string | boolean | undefined,
  word: string,
  all: ReadonlyMap<string, T>,
): { readonly list: readonly T[] } | { readonly sentence: string } {
  if (given === "all") return { list: [...all.values()] };
  const names = typeof given === "string" ? given.split(",").map((s) => s.trim()) : [...all.keys()].slice(0, 1);
  const unknown = names.find((name) => !all.has(name));
  if (unknown !== undefined)
    return { sentence: `There is no ${word} "${unknown}" here: ${[...all.keys()].join(", ")}, or all.` };
  return { list: [...new Set(names)].flatMap((name) => all.get(name) ?? []) };
}

/** Every vehicle searched for every aim. */
function search(plan: Plan, vehicles: readonly Device[], aims: readonly StandAim[], cellM: number | null) {
  const found: FoundStands[] = [];
  for (const device of vehicles) {
    for (const aim of aims) {
      const asked = standQuestion(plan, { device, aim, ...(cellM === null ? {} : { steps: { cellM } }) });
      if (!asked.ok) return { problems: asked.problems };
      const band: StandBand | null = searchStands(asked.question, {
        fromRow: 0,
        toRow: standGrid(asked.question).rows,
      });
      found.push({ asked, bands: band ? [band] : [] });
    }
  }
  return { found };
}

interface Answering {
  readonly advise: boolean;
  /** All there are to try. */
  readonly vehicles: readonly Device[];
  readonly cellM: number | null;
  readonly passedOver: readonly PassedOver[];
}

function answerOf(plan: Plan, found: readonly FoundStands[], answering: Answering): StandAnswer {
  const entries = withRoom(plan, standShortList(plan, found) ?? []) ?? [];
  const advice = answering.advise && entries.every((e) => e.fit === "fails") ? adviceFor(plan, found, answering) : null;
  const best = entries[0];
  const placement = best && best.fit !== "fails" ? standPlacement(withStand(plan, best.choice)) : null;
  return { found, entries, advice, placement, passedOver: answering.passedOver };
}

/** For every vehicle that was asked for, over all places that one stand must serve; every other that there is could be brought. */
function adviceFor(
  plan: Plan,
  found: readonly FoundStands[],
  { vehicles: all, cellM }: Answering,
): NonNullable<StandAnswer["advice"]> {
  const devices = [...new Set(found.map((f) => f.asked.device))];
  const vehicles = all.filter((d) => !devices.some((asked) => asked.id === d.id));
  const advice = devices.flatMap((device) => {
    const [aim, ...others] = found.flatMap((f) => (f.asked.device === device ? [f.asked.aim] : []));
    const ask = { device, ...(aim ? { aim } : {}), ...(cellM === null ? {} : { steps: { cellM } }) };
    return (standAdvice(plan, ask, { vehicles, others }) ?? []).map((a) => ({ ...a, vehicle: device.name }));
  });
  return adviceInOrder(advice);
}
