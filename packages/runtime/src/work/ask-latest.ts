/** The side of a worker that asks, or anything that stands in for it. */
export interface AskedWorker {
  postMessage(message: unknown): void;
  onmessage: ((event: { readonly data: unknown }) => void) | null;
  onerror: ((event: { readonly message?: string }) => void) | null;
}

/** What a worker sends back: its answer, or what it failed of. */
export type Reply<A> = { readonly answer: A } | { readonly fault: string };

/**
 * Asks a worker one thing at a time, and of what waits only the latest: while something is dragged, each question that
 * was begun is answered, and those overtaken before they were begun never are.
 *
 * @param onReply what came back, with the question it belongs to; questions are answered in the order they were asked
 * @returns asks a question
 */
export function askLatest<Q, A>(
  worker: AskedWorker,
  onReply: (reply: Reply<A>, question: Q) => void,
): (question: Q) => void {
  let asked: { readonly question: Q } | null = null;
  let waiting: { readonly question: Q } | null = null;
  const begin = (next: { readonly question: Q } | null) => {
    asked = next;
    waiting = null;
    if (next !== null) worker.postMessage(next.question);
  };
  const settle = (reply: Reply<A>) => {
    const settled = asked;
    begin(waiting);
    if (settled !== null) onReply(reply, settled.question);
  };
  worker.onmessage = ({ data }) => settle(data as Reply<A>);
  worker.onerror = ({ message }) => settle({ fault: message ?? "the worker could not be started" });
  return (question) => {
    if (asked === null) begin({ question });
    else waiting = { question };
  };
}
