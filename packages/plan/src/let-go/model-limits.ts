/**
 * What the figures of a line that goes do not have in them, in plain words. Stands beside every output of them.
 */
export const LET_GO_LIMITS: readonly string[] = [
  "The load is one mass that does not turn, on straight ropes without mass; ladder and tip are taken as stiff unless the tip is asked to give. One that gives mostly takes less, but that is no bound.",
  "Not in it: knots that tighten, ropes over sharp edges, the age and wear of ropes, how a real brake grabs and slips, and how a real ladder moves.",
  "Peaks are without damping. The band goes from the rope's slow stiffness with a damping from memory, to 1.69 times its dynamic stiffness without.",
  "A brake whose slip force is not known is held fast: an upper figure for forces, and no figure for how far the load would go. Checks on it stay unknown.",
  "A brake whose slip force is known lets rope through at that force, the same however fast and however long: a real one heats, grabs, and is held by a hand.",
  "Hands hold up to the policy's pull for each person, and then not at all. Nobody is quick enough to help.",
  "What hits ground or wall does not bounce; what hitting does to a person is not told.",
];

/** The same as one paragraph. */
export const LET_GO_LIMITS_TEXT = LET_GO_LIMITS.join(" ");

/** How the tip was taken, and what that means: said beside what it is of. */
export const TIP_SAYS = {
  stiff: "By a stiff tip: one that gives mostly takes less, but that is no bound",
  gives: "The tip gives as the ladder's sections do",
} as const;
