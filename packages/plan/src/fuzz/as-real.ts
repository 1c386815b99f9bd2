import type { Plan } from "../schema/plan.ts";

/** The same plan with its example marks taken off, as if it were of a real place: nothing but its figures holds it back. */
export const asReal = (plan: Plan): Plan => ({
  ...plan,
  example: false,
  scene: { ...plan.scene, example: false },
  aerial: { ...plan.aerial, device: { ...plan.aerial.device, example: false } },
  gear: plan.gear.map((g) => ({ ...g, example: false })),
});
