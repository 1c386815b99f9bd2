import { writeAmount } from "@gantline/plan";
import { MomentName } from "../evolution/moment-name.tsx";
import { useDesk, usePlan, useSystem } from "../state/desk-context.tsx";

const AGAINST = {
  tip: "the tip sheave: it cannot draw in from there",
  redirect: "the first redirect",
  yoke: "the yoke",
} as const;

/** How the skate tether works at the place or moment that is drawn. */
export function TetherNow() {
  const tether = useDesk((desk) => desk.evaluation.tether);
  const staged = usePlan((plan) => plan.evolution.stages.length > 0);
  const system = useSystem();
  const length = (value: number) => writeAmount({ value, quantity: "length" }, system);
  const force = (value: number) => writeAmount({ value, quantity: "force" }, system);
  const left = (value: number, short: string) => (value >= 0 ? length(value) : `none: ${length(-value)} ${short}`);
  return (
    <section className="now" aria-label="Tether now">
      <h4>
        How it works{staged ? ": " : " here"}
        {staged && <MomentName />}
      </h4>
      {tether === null ? (
        <p className="none">It is not on the load, or nothing could be worked out.</p>
      ) : (
        <dl className="readout figure">
          <dt>Yoke to riding pulley</dt>
          <dd>{length(tether.lengthM)}</dd>
          <dt>Can still draw in</dt>
          <dd>{left(tether.lengthM - tether.lengthMinM, "too near")}</dd>
          <dt>Can still let out</dt>
          <dd>{left(tether.lengthMaxM - tether.lengthM, "too far")}</dd>
          <dt>Pull</dt>
          <dd>{force(tether.tensionN)}</dd>
          <dt>Riding pulley</dt>
          <dd>{tether.against === null ? "rides free" : `runs up against ${AGAINST[tether.against]}`}</dd>
          <dt>Pulley to ladder</dt>
          <dd>{length(tether.ladderClearM)}</dd>
          <dt>Part of the pull along the ladder</dt>
          <dd>
            {force(Math.abs(tether.alongLadderN))} {tether.alongLadderN < 0 ? "toward the pivot" : "toward the tip"}
          </dd>
        </dl>
      )}
    </section>
  );
}
