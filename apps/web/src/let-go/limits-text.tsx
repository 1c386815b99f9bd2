import { LET_GO_LIMITS } from "@gantline/plan";

/** What the numbers leave out: the first of it in sight beside them however far down one reads, all of it at a touch. */
export function LimitsText() {
  return (
    <div className="let-go-limits">
      <details>
        <summary>{LET_GO_LIMITS[1]}</summary>
        <ul>
          {LET_GO_LIMITS.map((limit) => (
            <li key={limit}>{limit}</li>
          ))}
        </ul>
      </details>
    </div>
  );
}
