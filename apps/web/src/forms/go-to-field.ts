import type { DeskActions, Tab } from "../state/desk.ts";

/** Which form holds a field of the plan. */
export function tabOfField(path: string): Tab {
  const first = path.split(/[.[]/, 1)[0];
  if (first === "aerial") return "stand";
  if (first === "rig" || first === "gear") return "rig";
  if (first === "evolution") return "evolution";
  return first === "policy" ? "policy" : "scene";
}

/** How long the form may take to load before the way to the field is given up, ms. */
const PATIENCE_MS = 3000;

/** Shows the form that holds a field, opens what is folded over it, and puts the cursor there. */
export function goToField(actions: DeskActions, path: string): void {
  actions.showTab(tabOfField(path));
  const begun = performance.now();
  const seek = () => {
    const target = nearestField(path);
    if (target === null) {
      if (performance.now() - begun < PATIENCE_MS) setTimeout(seek, 50);
      return;
    }
    for (let above = target.closest("details"); above !== null; above = above.parentElement?.closest("details") ?? null)
      above.open = true;
    target.scrollIntoView({ block: "center" });
    const inner = target.matches("input, select, textarea, button, summary")
      ? target
      : target.querySelector<HTMLElement>("input, select, textarea, button, summary");
    inner?.focus({ preventScroll: true });
  };
  requestAnimationFrame(seek);
}

/** The field of a path, or the group that holds it where the path goes deeper or less deep than a field. */
function nearestField(path: string): HTMLElement | null {
  const fields = [...document.querySelectorAll<HTMLElement>("#panel [data-path]")];
  const plain = (text: string) => text.replace(/\[(\d+)\]/g, ".$1");
  const wanted = plain(path);
  const at = (field: HTMLElement) => plain(field.dataset.path ?? "");
  return (
    fields.find((field) => at(field) === wanted) ??
    fields.find((field) => at(field).startsWith(`${wanted}.`)) ??
    fields.filter((field) => wanted.startsWith(`${at(field)}.`)).sort((a, b) => at(b).length - at(a).length)[0] ??
    null
  );
}
