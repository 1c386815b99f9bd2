/** What this tool is not, in one sentence: in sight on everything it shows of a plan. */
export const CAUTION_HEAD =
  "A planning aid. The maker's manual, the authority having jurisdiction and qualified people at the scene decide.";

/** What goes with it wherever there is room. */
export const CAUTION_REST =
  "Many rules forbid lifting people with powered equipment: the ladder stands still and locked out under load. Train on the ground first.";

export const CAUTION = `${CAUTION_HEAD} ${CAUTION_REST}`;
