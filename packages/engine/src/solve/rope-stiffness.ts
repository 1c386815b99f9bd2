/**
 * Adds what a straight rope does against its end being moved to a stiffness, N/m, nine numbers row by row:
 * `across`·(1 − u uᵀ) + `along`·u uᵀ for its direction u, a unit vector.
 */
export function addRopeStiffness(
  stiffness: Float64Array,
  ux: number,
  uy: number,
  uz: number,
  along: number,
  across: number,
): void {
  const more = along - across;
  stiffness[0]! += across + more * ux * ux;
  stiffness[1]! += more * ux * uy;
  stiffness[2]! += more * ux * uz;
  stiffness[3]! += more * uy * ux;
  stiffness[4]! += across + more * uy * uy;
  stiffness[5]! += more * uy * uz;
  stiffness[6]! += more * uz * ux;
  stiffness[7]! += more * uz * uy;
  stiffness[8]! += across + more * uz * uz;
}
