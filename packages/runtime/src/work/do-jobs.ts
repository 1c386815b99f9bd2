import type { Reply } from "./ask-latest.ts";
import { buffersIn } from "./buffers-in.ts";
import type { JobMessage, News } from "./spread-work.ts";

/** The side of a worker that does jobs: its global scope, or anything that stands in for it. */
export interface WorkingScope {
  postMessage(message: unknown, transfer: ArrayBuffer[]): void;
  onmessage: ((event: { readonly data: unknown }) => void) | null;
}

/**
 * Makes a worker do the jobs of `spreadWork`. Arrays in an answer are handed over, not copied: an answer's arrays must be
 * its own. A job it fails of is answered with the fault.
 *
 * @param prepare what is worked out once from the matter of all jobs; a job may tell news before it is done
 */
export function doJobs<M, J, A, N = never>(
  scope: WorkingScope,
  prepare: (matter: M) => (job: J, tell: (news: N) => void) => A,
): void {
  const tell = (news: N) => {
    const message: News<N> = { news };
    scope.postMessage(message, []);
  };
  let work: ReturnType<typeof prepare> | null = null;
  scope.onmessage = ({ data }) => {
    const message = data as JobMessage<M, J>;
    let reply: Reply<A>;
    try {
      if ("matter" in message) work = prepare(message.matter as M);
      if (work === null) throw new Error("a job came before what it is about");
      reply = { answer: work(message.job, tell) };
    } catch (error) {
      reply = { fault: error instanceof Error ? error.message : String(error) };
    }
    scope.postMessage(reply, "answer" in reply ? buffersIn(reply.answer) : []);
  };
}
