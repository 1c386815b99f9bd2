import type { DeskActions, DeskStore } from "./desk.ts";

/** A page that is being left lets go of its plan within this, ms. */
const LETTING_GO_MS = 800;

/** Says so where the plan on the desk is open in another window as well: both would write it. Browsers without locks are silent. */
export function watchShared(desk: DeskStore, actions: DeskActions): void {
  if (!("locks" in navigator)) return;
  let letGo: () => void = () => {};
  const hold = (planId: string) => {
    letGo();
    let held = true;
    letGo = () => {
      held = false;
    };
    setTimeout(() => {
      if (!held || desk.getState().planId !== planId) return;
      void navigator.locks.request(`gantline.plan.${planId}`, { ifAvailable: true }, (lock) => {
        if (lock !== null) return new Promise<void>((release) => (letGo = release));
        actions.tell({
          kind: "problem",
          title: "This plan is open in another window as well.",
          lines: ["Both keep what they change, and the later change wins. Work in one, or duplicate the plan."],
        });
        return Promise.resolve();
      });
    }, LETTING_GO_MS);
  };
  hold(desk.getState().planId);
  desk.subscribe((now, before) => {
    if (now.planId !== before.planId) hold(now.planId);
  });
}
