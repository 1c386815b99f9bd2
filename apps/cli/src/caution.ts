import type { Plan } from "@gantline/plan";

/** What this tool is not. On everything it prints about a plan. */
export const CAUTION =
  "A planning aid. The maker's manual, the authority having jurisdiction and qualified people at the scene decide. " +
  "Many rules forbid lifting people with powered equipment: the ladder stands still and locked out under load. Train on the ground first.";

/** Says what in a plan is invented; null where nothing is. */
export function exampleLine({ example, aerial, scene, gear }: Plan): string | null {
  const invented = [
    ...(example ? ["the plan"] : []),
    ...(aerial.device.example ? ["the vehicle"] : []),
    ...(scene.example ? ["the scene"] : []),
    ...(gear.some((g) => g.example) ? ["gear"] : []),
  ];
  return invented.length === 0 ? null : `Example data, invented: ${invented.join(", ")}.`;
}
