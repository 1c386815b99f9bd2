import type { PlanStore, StoredPlan } from "./plan-store.ts";

/** One thing every plan store must do. `run` rejects with what went wrong. */
export interface AcceptanceCase {
  readonly title: string;
  readonly run: (open: () => Promise<PlanStore>) => Promise<void>;
}

const plan = (id: string, savedAtMs: number, document: unknown = { format: "gantline-plan" }): StoredPlan => ({
  id,
  name: `Plan ${id}`,
  savedAtMs,
  document,
});

function same(got: unknown, wanted: unknown, what: string): void {
  const [a, b] = [JSON.stringify(got), JSON.stringify(wanted)];
  if (a !== b) throw new Error(`${what}: got ${a}, wanted ${b}`);
}

/**
 * What a plan store must do, told once and asked of every implementation, in Node and in the browser.
 * `open` gives a store that is empty the first time in a case, and the same store again after that.
 */
export const planStoreAcceptance: readonly AcceptanceCase[] = [
  {
    title: "begins empty",
    run: async (open) => {
      const store = await open();
      same(await store.list(), [], "list");
      same(await store.read("a"), null, "read");
      same(await store.lastOpened(), null, "last opened");
    },
  },
  {
    title: "gives back what was written, unchanged, of any shape",
    run: async (open) => {
      const store = await open();
      const document = { formatVersion: 99, nested: [null, 0.1, "é", { deep: true }] };
      await store.write(plan("a", 1, document));
      same(await store.read("a"), plan("a", 1, document), "read");
    },
  },
  {
    title: "keeps its own copy: what is done to the document later does not reach it",
    run: async (open) => {
      const store = await open();
      const document = { value: 1 };
      await store.write(plan("a", 1, document));
      document.value = 2;
      const read = (await store.read("a"))?.document as { value: number };
      same(read.value, 1, "after the writer's change");
      read.value = 3;
      same((await store.read("a"))?.document, { value: 1 }, "after the reader's change");
    },
  },
  {
    title: "lists newest first, without documents",
    run: async (open) => {
      const store = await open();
      for (const [id, at] of [
        ["a", 5],
        ["b", 9],
        ["c", 7],
      ] as const)
        await store.write(plan(id, at));
      same(
        await store.list(),
        [
          ["b", 9],
          ["c", 7],
          ["a", 5],
        ].map(([id, savedAtMs]) => ({ id, name: `Plan ${id}`, savedAtMs })),
        "list",
      );
    },
  },
  {
    title: "replaces by id",
    run: async (open) => {
      const store = await open();
      await store.write(plan("a", 1));
      await store.write({ ...plan("a", 2), name: "Renamed" });
      same(await store.list(), [{ id: "a", name: "Renamed", savedAtMs: 2 }], "list");
    },
  },
  {
    title: "removes, and does not mind removing what is not there",
    run: async (open) => {
      const store = await open();
      await store.write(plan("a", 1));
      await store.write(plan("b", 2));
      await store.remove("a");
      await store.remove("nobody");
      same(
        (await store.list()).map(({ id }) => id),
        ["b"],
        "list",
      );
    },
  },
  {
    title: "remembers the plan last opened, until it is removed",
    run: async (open) => {
      const store = await open();
      await store.write(plan("a", 1));
      await store.noteOpened("a");
      same(await store.lastOpened(), "a", "last opened");
      await store.remove("a");
      same(await store.lastOpened(), null, "after removal");
    },
  },
  {
    title: "takes writes at the same time without losing one",
    run: async (open) => {
      const store = await open();
      await Promise.all(Array.from({ length: 40 }, (_, i) => store.write(plan(`p${i}`, i))));
      same((await store.list()).length, 40, "plans");
    },
  },
  {
    title: "opened again, it holds what it held",
    run: async (open) => {
      const first = await open();
      await first.write(plan("a", 1));
      await first.noteOpened("a");
      const again = await open();
      same((await again.read("a"))?.name, "Plan a", "plan");
      same(await again.lastOpened(), "a", "last opened");
    },
  },
];
