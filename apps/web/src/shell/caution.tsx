import { CAUTION_HEAD, CAUTION_REST, exampleLine } from "@gantline/plan";
import { usePlan } from "../state/desk-context.tsx";
import { UpdatePrompt } from "./update-prompt.tsx";

/** At the foot of the sheet, always there: what this tool is not; and whether the plan rests on invented data. */
export function Caution() {
  const invented = usePlan(exampleLine);
  return (
    <footer className="caution">
      {invented !== null && <p className="invented">{invented}</p>}
      <details>
        <summary>{CAUTION_HEAD}</summary>
        <p className="caution-more">{CAUTION_REST}</p>
      </details>
      <UpdatePrompt />
    </footer>
  );
}
