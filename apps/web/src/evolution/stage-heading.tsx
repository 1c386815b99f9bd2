import { stageStatus } from "@gantline/drawing";
import { type Stage, writeRatio } from "@gantline/plan";
import { STATUS_WORD, StatusSign } from "../ledger/status-sign.tsx";
import { useDesk } from "../state/desk-context.tsx";

/** A stage in one line: number, name, how it stands. */
export function StageHeading({ stage, index }: { readonly stage: Stage; readonly index: number }) {
  const swept = useDesk((desk) => desk.evolution?.swept ?? null);
  const result = swept?.stages[index];
  const status = swept === null || result?.stage.id !== stage.id ? null : stageStatus(swept, index);
  return (
    <span className="stage-heading">
      <span>
        {index + 1}. {stage.name}
      </span>
      {status !== null && (
        <span className={`stage-status is-${status}`}>
          <StatusSign status={status} /> {STATUS_WORD[status]}
          {result !== undefined && result.problems.length > 0
            ? ", cannot be carried out as written"
            : result?.worst.ratio != null && ` ${writeRatio(result.worst.ratio)}`}
        </span>
      )}
    </span>
  );
}
