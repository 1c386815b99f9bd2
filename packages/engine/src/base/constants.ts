/** Standard gravity, m/s² (CGPM 1901, conventional value). */
export const STANDARD_GRAVITY_MS2 = 9.80665;
