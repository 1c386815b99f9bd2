import type { Plan, When } from "@gantline/plan";

/** The moment asked for by `--stage` (from 1) and `--along` (percent, 50 unless said); undefined where none is, a sentence where there is no such moment. */
export function readMoment(
  plan: Plan,
  stage: string | boolean | undefined,
  along: string | boolean | undefined,
): When | undefined | string {
  if (stage === undefined) return along === undefined ? undefined : "Say which stage with --stage.";
  const number = Number(stage);
  const percent = along === undefined ? 50 : Number(along);
  const { length } = plan.evolution.stages;
  if (!Number.isInteger(number) || number < 1 || number > length)
    return length === 0
      ? `There is no stage "${stage}": this plan has no stages.`
      : `There is no stage "${stage}": 1 to ${length}.`;
  return percent >= 0 && percent <= 100
    ? { stage: number - 1, along: percent / 100 }
    : `"${along}" is no percentage from 0 to 100.`;
}
