import { type Evaluation, type Plan, writePhrase, writeRatio } from "@gantline/plan";
import { useSystem } from "../state/desk-context.tsx";
import { CASE_WORD } from "./case-word.ts";
import { Figure } from "./figure.tsx";
import { ratingWorking } from "./point-workings.ts";

const USES = [
  ["resultant", "Resultant"],
  ["bending", "Bending"],
  ["compression", "Compression"],
] as const;

/** How much of the tip's rating is used, three ways, never folded into one. */
export function UseTable({ plan, evaluation }: { readonly plan: Plan; readonly evaluation: Evaluation }) {
  const system = useSystem();
  const { cases, felt, ratedTipLoadN, ratingReason } = evaluation;
  const { source } = plan.aerial.device.tipRating;
  return (
    <div className="rows">
      <table className="forces">
        <caption>Use of the tip's rating, three ways apart</caption>
        <thead>
          <tr>
            <th scope="col">By</th>
            <th scope="col" className="number">
              Demand
            </th>
            <th scope="col" className="number">
              Limit
            </th>
            <th scope="col" className="number">
              Used
            </th>
          </tr>
        </thead>
        {cases.map((travel) => (
          <tbody key={travel}>
            {USES.map(([name, word]) => {
              const use = felt[travel]?.utilisations[name];
              if (use === undefined) return null;
              const working = ratingWorking(use, ratedTipLoadN, writePhrase(ratingReason, system), source);
              const quantity = use.unit === "N" ? "force" : "moment";
              const what = `${word}, ${CASE_WORD[travel]}`;
              return (
                <tr key={name}>
                  <th scope="row">{what}</th>
                  <td className="number">
                    <Figure value={use.demand} quantity={quantity} what={`${what}, demand`} working={working} />
                  </td>
                  <td className="number">
                    <Figure value={use.limit} quantity={quantity} what={`${what}, limit`} working={working} />
                  </td>
                  <td className="number figure">{writeRatio(use.ratio)}</td>
                </tr>
              );
            })}
          </tbody>
        ))}
      </table>
    </div>
  );
}
