import { type Device, firstOfEachId, newPlan, type Plan, readPlan, readPlanText } from "@gantline/plan";
import type { PlanStore } from "@gantline/runtime";
import type { DeskActions, DeskStore, Notice } from "./desk.ts";
import { newId } from "./new-id.ts";
import { savePlanFile } from "./save-plan-file.ts";

/** The plans kept on this machine, and how they come to the desk. */
export interface PlanShelf {
  /** Puts a plan on the desk as a new one and keeps it. */
  readonly add: (plan: Plan) => Promise<void>;
  readonly addNew: () => Promise<void>;
  readonly open: (id: string) => Promise<void>;
  readonly duplicate: () => Promise<void>;
  /** Takes the open plan off the shelf and opens the one last written, or a new one. */
  readonly remove: () => Promise<void>;
  readonly openFile: (file: File) => Promise<void>;
  readonly saveFile: () => void;
  readonly refresh: () => Promise<void>;
  /** The department's vehicles: those of all plans kept here that can be read, the last written first; examples left out, of one id the first. */
  readonly vehicles: () => Promise<readonly Device[]>;
}

const NEW_NAME = "New plan";
const MOST_FILE_BYTES = 20_000_000;
const MOST_PROBLEMS_SHOWN = 12;

/**
 * @param flush writes what is not yet written of the open plan
 * @param now the writer's clock, ms
 */
export function planShelf(
  desk: DeskStore,
  actions: DeskActions,
  store: PlanStore,
  flush: () => Promise<void>,
  now: () => number,
): PlanShelf {
  const refresh = async () => desk.setState({ plans: await store.list() });

  const put = async (id: string, plan: Plan) => {
    actions.endMove();
    await flush();
    actions.openPlan(id, plan);
    await store.noteOpened(id);
    await refresh();
  };

  const add = async (plan: Plan) => {
    const id = newId();
    await store.write({ id, name: plan.name, savedAtMs: now(), document: plan });
    await put(id, plan);
  };

  const open = async (id: string) => {
    await flush();
    const stored = await store.read(id);
    const read = stored === null ? null : readPlan(stored.document);
    if (read === null) actions.tell({ kind: "problem", title: "This plan is no longer on this machine.", lines: [] });
    else if (read.ok) await put(id, read.plan);
    else actions.tell(refused(`“${stored?.name}” could not be opened. It is left as it is.`, read.problems));
  };

  return {
    add,
    addNew: () => add(newPlan(NEW_NAME)),
    open,
    refresh,
    duplicate: () => {
      const plan = desk.getState().history.present;
      return add({ ...plan, name: `${plan.name} (copy)`.slice(0, 200) });
    },
    remove: async () => {
      const { planId, history } = desk.getState();
      await flush();
      await store.remove(planId);
      const [next] = await store.list();
      await (next === undefined ? add(newPlan(NEW_NAME)) : open(next.id));
      const putBack = () => void add(history.present).then(() => actions.tell(null));
      actions.tell({
        kind: "done",
        title: `“${history.present.name}” was deleted.`,
        lines: [],
        remedy: { word: "Put it back", run: putBack },
      });
    },
    openFile: async (file) => {
      if (file.size > MOST_FILE_BYTES)
        return actions.tell({ kind: "problem", title: `“${file.name}” is too large to be a plan.`, lines: [] });
      const read = readPlanText(await file.text());
      if (!read.ok)
        return actions.tell(refused(`“${file.name}” could not be opened. Nothing was changed.`, read.problems));
      await add(read.plan);
      actions.tell(null);
    },
    saveFile: () => savePlanFile(desk.getState().history.present),
    vehicles: async () => {
      const devices: Device[] = [];
      for (const { id } of await store.list()) {
        const stored = await store.read(id);
        const read = stored === null ? null : readPlan(stored.document);
        if (read?.ok && !read.plan.aerial.device.example) devices.push(read.plan.aerial.device);
      }
      return firstOfEachId(devices);
    },
  };
}

/** What is wrong with a document, as plain lines. */
function refused(
  title: string,
  problems: readonly { readonly path: string; readonly got: string; readonly expected: string }[],
): Notice {
  const lines = problems
    .slice(0, MOST_PROBLEMS_SHOWN)
    .map(({ path, got, expected }) => `${path}: got ${got}, expected ${expected}.`);
  const more = problems.length - lines.length;
  return { kind: "problem", title, lines: more > 0 ? [...lines, `And ${more} more.`] : lines };
}
