import { FaultWall } from "../shell/fault-wall.tsx";
import { CaseFigures } from "./case-figures.tsx";
import { CasePicker } from "./case-picker.tsx";
import { CriticalList } from "./critical-list.tsx";
import { LimitsText } from "./limits-text.tsx";
import { Replay } from "./replay.tsx";
import { SweepView } from "./sweep-view.tsx";
import { TechniqueTable } from "./technique-table.tsx";
import { useCase } from "./use-case.ts";
import { useDrawnCase } from "./use-drawn-case.ts";
import { useLetGo } from "./use-let-go.ts";
import "../styles/let-go.css";

/** When something lets go: one line at one moment; any line at any moment; every part in turn; other ways to rig. */
export default function LetGoForm() {
  const { line, lines, one } = useCase();
  const drawn = useLetGo((desk) => desk.drawn);
  const answer = one.worked?.answer ?? null;
  useDrawnCase(drawn ? answer : null);
  return (
    <div className="let-go">
      <LimitsText />
      <CasePicker line={line} lines={lines} />
      {line === null && <p>There is no line yet that could go.</p>}
      {one.fault !== null && (
        <p className="field-problem" role="alert">
          It failed: {one.fault}
        </p>
      )}
      {answer !== null && (
        <div className="case" aria-busy={one.waiting}>
          <CaseFigures one={answer} />
          <FaultWall what="The replay">
            <Replay one={answer} />
          </FaultWall>
        </div>
      )}
      <FaultWall what="The sweep">
        <SweepView />
      </FaultWall>
      <FaultWall what="The list of critical points">
        <CriticalList />
      </FaultWall>
      <FaultWall what="The comparison">
        <TechniqueTable />
      </FaultWall>
    </div>
  );
}
