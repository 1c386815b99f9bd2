import type { Tab } from "../state/desk.ts";

/** The parts of the plan that have a form, in order. */
export const TABS: readonly { readonly id: Tab; readonly word: string }[] = [
  { id: "scene", word: "Scene" },
  { id: "stand", word: "Stand" },
  { id: "rig", word: "Rig" },
  { id: "evolution", word: "Evolution" },
  { id: "letGo", word: "Let go" },
  { id: "ledger", word: "Ledger" },
  { id: "policy", word: "Policy" },
];
