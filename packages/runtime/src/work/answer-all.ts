import type { Reply } from "./ask-latest.ts";

/** The side of a worker that answers: its global scope, or anything that stands in for it. */
export interface AnsweringScope {
  postMessage(message: unknown): void;
  onmessage: ((event: { readonly data: unknown }) => void) | null;
}

/** Makes a worker answer every question it is asked; a question it fails of is answered with the fault. */
export function answerAll<Q, A>(scope: AnsweringScope, answer: (question: Q) => A): void {
  scope.onmessage = ({ data }) => {
    let reply: Reply<A>;
    try {
      reply = { answer: answer(data as Q) };
    } catch (error) {
      reply = { fault: error instanceof Error ? error.message : String(error) };
    }
    scope.postMessage(reply);
  };
}
