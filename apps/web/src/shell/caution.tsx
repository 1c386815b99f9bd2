import { usePlan } from "../state/desk-context.tsx";
import { restsOnExamples } from "./rests-on-examples.ts";
import { UpdatePrompt } from "./update-prompt.tsx";

/** At the foot of the sheet, always there: what this tool is not; and whether the plan rests on invented data. */
export function Caution() {
  const invented = usePlan(restsOnExamples);
  return (
    <footer className="caution">
      {invented !== "" && (
        <p className="invented">
          <b>Example data:</b> {invented} invented.
        </p>
      )}
      <details>
        <summary>
          Planning aid. The maker's manual, the authority having jurisdiction and qualified people at the scene decide.
        </summary>
        <p className="caution-more">
          Many rules forbid lifting people with powered equipment: the ladder stands still and locked out under load.
          Train on the ground first.
        </p>
      </details>
      <UpdatePrompt />
    </footer>
  );
}
