import { type Working, writeAmount } from "@gantline/plan";
import { useSystem } from "../state/desk-context.tsx";

/** How a number was worked: the formula, each number put in with its source, and where the limit comes from. */
export function WorkingView({ working }: { readonly working: Working }) {
  const system = useSystem();
  return (
    <div className="working">
      <p className="formula">{working.formula}</p>
      {working.terms.length > 0 && (
        <dl className="terms">
          {working.terms.map((term, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: the same symbol may stand twice; the order is the working's
            <div key={index}>
              <dt>
                <var>{term.symbol}</var>
              </dt>
              <dd>
                <span className="figure">
                  {term.value === null
                    ? "unknown"
                    : writeAmount({ value: term.value, quantity: term.quantity }, system)}
                </span>{" "}
                {term.meaning}
                {term.source !== undefined && term.source !== "" && <span className="source"> {term.source}</span>}
              </dd>
            </div>
          ))}
        </dl>
      )}
      {working.limitSource !== "" && (
        <p className="source">
          <span className="lead">Limit from</span> {working.limitSource}
        </p>
      )}
    </div>
  );
}
