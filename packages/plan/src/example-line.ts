import type { Plan } from "./schema/plan.ts";

/** Which parts of a plan are marked as invented? "Example data, invented: the plan, gear."; null where none is. */
export function exampleLine({ example, aerial, scene, gear }: Plan): string | null {
  const invented = [
    ...(example ? ["the plan"] : []),
    ...(aerial.device.example ? ["the vehicle"] : []),
    ...(scene.example ? ["the scene"] : []),
    ...(gear.some((g) => g.example) ? ["gear"] : []),
  ];
  return invented.length === 0 ? null : `Example data, invented: ${invented.join(", ")}.`;
}
