import { writePhrase } from "@gantline/plan";
import { useDesk, useSystem } from "../state/desk-context.tsx";
import { stageProblemAt } from "../state/problems-of.ts";

/** What the sweep found wrong with a stage at one of its fields, said there; nothing where it found nothing. */
export function StageProblemAt({ path }: { readonly path: string }) {
  const system = useSystem();
  const found = useDesk((desk) => stageProblemAt(desk, path));
  if (found === undefined) return null;
  return (
    <p className="field-problem" role="alert">
      {writePhrase(found.says, system)}
    </p>
  );
}
