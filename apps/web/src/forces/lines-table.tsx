import type { Evaluation, Plan } from "@gantline/plan";
import { CASE_WORD } from "./case-word.ts";
import { Figure } from "./figure.tsx";
import { ropeWorking, tensionWorking } from "./line-workings.ts";

/** Every rope, part by part: its tension in each case of travel, and how much rope must be brought. */
export function LinesTable({ plan, evaluation }: { readonly plan: Plan; readonly evaluation: Evaluation }) {
  const { lines, cases } = evaluation;
  return (
    <div className="rows">
      <table className="forces">
        <caption>
          {cases.length > 1
            ? "Rope tensions. At rest, friction can act either way: both ends are given"
            : "Rope tensions"}
        </caption>
        <thead>
          <tr>
            <th scope="col">Rope</th>
            <th scope="col">Part</th>
            {cases.map((travel) => (
              <th key={travel} scope="col" className="number">
                {CASE_WORD[travel]}
              </th>
            ))}
            <th scope="col" className="number">
              Rope needed
            </th>
          </tr>
        </thead>
        {lines.map((line) => (
          <tbody key={line.id}>
            {line.nodes.slice(1).map((node, segment) => (
              <tr key={node.id}>
                {segment === 0 && (
                  <th scope="rowgroup" rowSpan={line.nodes.length - 1}>
                    {line.name}
                    {line.slack && <span className="slack"> slack</span>}
                  </th>
                )}
                <td>to {node.name}</td>
                {cases.map((travel) => (
                  <td key={travel} className="number">
                    <Figure
                      value={line.tensionsN[travel][segment] ?? null}
                      quantity="force"
                      what={`${line.name}, to ${node.name}, ${CASE_WORD[travel]}`}
                      working={tensionWorking(plan, evaluation, line, segment, travel)}
                    />
                  </td>
                ))}
                {segment === 0 && (
                  <td className="number" rowSpan={line.nodes.length - 1}>
                    <Figure
                      value={line.neededM}
                      quantity="length"
                      what={`${line.name}, rope needed`}
                      working={ropeWorking(line)}
                    />
                  </td>
                )}
              </tr>
            ))}
          </tbody>
        ))}
      </table>
    </div>
  );
}
