/** What was, what is, and what was undone. Plans are never changed in place, so steps share what they have in common. */
export interface History<T> {
  readonly past: readonly T[];
  readonly present: T;
  readonly future: readonly T[];
}

/** Steps that can be undone; older ones are let go. */
export const MOST_STEPS = 300;

export const beginHistory = <T>(present: T): History<T> => ({ past: [], present, future: [] });

/** A step forward from `base` (the present, unless a drag began earlier); what was undone before is gone. */
export function record<T>(history: History<T>, next: T, base: T = history.present): History<T> {
  if (next === base) return { ...history, present: base };
  return { past: [...history.past, base].slice(-MOST_STEPS), present: next, future: [] };
}

export function undo<T>({ past, present, future }: History<T>): History<T> {
  const last = past.at(-1);
  return last === undefined
    ? { past, present, future }
    : { past: past.slice(0, -1), present: last, future: [present, ...future] };
}

export function redo<T>({ past, present, future }: History<T>): History<T> {
  const [next, ...rest] = future;
  return next === undefined ? { past, present, future } : { past: [...past, present], present: next, future: rest };
}
