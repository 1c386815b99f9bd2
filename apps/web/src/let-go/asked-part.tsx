import { TIP_SAYS } from "@gantline/plan";
import type { ReactNode } from "react";
import type { Asked } from "./let-go-desk.ts";
import { useOlder } from "./use-let-go.ts";

interface Props {
  readonly title: string;
  /** What the button that asks says. */
  readonly word: string;
  readonly asked: Asked<unknown>;
  readonly begin: () => void;
  readonly stop: () => void;
  readonly children: ReactNode;
}

/** Something worked out only when it is asked for: the button, that it is under way and can be cancelled, and what came of it. */
export function AskedPart({ title, word, asked, begin, stop, children }: Props) {
  const older = useOlder(asked);
  const { waiting, fault, worked } = asked;
  return (
    <section className="let-go-part" aria-label={title} aria-busy={waiting}>
      <h3>{title}</h3>
      <div className="sweep-go">
        {waiting ? (
          <button type="button" onClick={stop}>
            Cancel
          </button>
        ) : (
          <button type="button" className="go" onClick={begin}>
            {word}
          </button>
        )}
        <p role="status">
          {waiting
            ? "Working…"
            : fault !== null
              ? `It failed: ${fault}`
              : older
                ? "Of another moment, of the plan before its last change, or with the tip taken otherwise."
                : worked === null
                  ? "At the moment that is drawn."
                  : `${TIP_SAYS[worked.tipGives ? "gives" : "stiff"]}.`}
        </p>
      </div>
      {children}
    </section>
  );
}
