import type { Evaluation } from "@gantline/plan";
import { CASE_WORD } from "./case-word.ts";
import { Figure } from "./figure.tsx";
import { pointWorking } from "./point-workings.ts";

const PARTS = [
  ["compressionN", "Compression", "force"],
  ["normalN", "Bending", "force"],
  ["lateralN", "Sideways", "force"],
  ["resultantN", "Resultant", "force"],
  ["offPlaneRad", "Off plane", "angle"],
] as const;

/** What each rigging point feels, along the ladder's own axes. */
export function LadderTable({ evaluation }: { readonly evaluation: Evaluation }) {
  return (
    <div className="rows is-wide">
      <table className="forces">
        <caption>Force at each rigging point, along the ladder, square to it and sideways</caption>
        <thead>
          <tr>
            <th scope="col">Rigging point</th>
            {PARTS.map(([part, word]) => (
              <th key={part} scope="col" className="number">
                {word}
              </th>
            ))}
          </tr>
        </thead>
        {evaluation.cases.map((travel) => (
          <tbody key={travel}>
            {evaluation.felt[travel]?.points.map((point) => (
              <tr key={point.pointId}>
                <th scope="row">
                  {point.name}, {CASE_WORD[travel]}
                </th>
                {PARTS.map(([part, word, quantity]) => (
                  <td key={part} className="number">
                    <Figure
                      value={point[part]}
                      quantity={quantity}
                      what={`${point.name}, ${word.toLowerCase()}, ${CASE_WORD[travel]}`}
                      working={pointWorking(point, part)}
                    />
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        ))}
      </table>
    </div>
  );
}
