import type { StoredPlan } from "@gantline/runtime";

const KEY = "gantline.last-words";

/**
 * The last change, put down at once where the store takes a moment: what a killed tab leaves behind.
 * A browser that refuses it loses at most what the store had not yet taken.
 */
export function putLastWords(plan: StoredPlan): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(plan));
  } catch {
    // Full or refused: the store will have it in a moment.
  }
}

/** The store has this change, or a later one. */
export function clearLastWords(): void {
  try {
    localStorage.removeItem(KEY);
  } catch {
    // Nothing was put there either.
  }
}

/** What was put down and never reached the store; null: nothing. */
export function readLastWords(): StoredPlan | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? "null");
    return isStoredPlan(kept) ? kept : null;
  } catch {
    return null;
  }
}

function isStoredPlan(kept: unknown): kept is StoredPlan {
  const plan = kept as Partial<StoredPlan> | null;
  return (
    typeof plan?.id === "string" &&
    typeof plan.name === "string" &&
    typeof plan.savedAtMs === "number" &&
    typeof plan.document === "object"
  );
}
