import type { Check } from "@gantline/plan";
import type { Desk } from "../state/desk.ts";

/** The check that is open in the ledger, as it stands at the place or moment drawn; of the whole evolution where only that has it. */
export const markedCheck = ({ openCheckId, evaluation, evolution, letGo }: Desk): Check | null =>
  openCheckId === null
    ? null
    : ([...evaluation.ledger, ...(evolution?.swept?.ledger ?? []), ...(letGo?.found?.ledger ?? [])].find(
        ({ id }) => id === openCheckId,
      ) ?? null);
