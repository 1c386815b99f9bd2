import type { AskedWorker, Reply } from "./ask-latest.ts";

/** A worker that can be ended in the middle of its work. */
export interface EndableWorker extends AskedWorker {
  terminate(): void;
}

/** What a worker is sent: a job, and before its first one what all jobs of the work are about. */
export interface JobMessage<M, J> {
  readonly matter?: M;
  readonly job: J;
}

/** What a worker tells of a job while it is at it. */
export interface News<N> {
  readonly news: N;
}

/** Work that falls into jobs which do not wait for each other. */
export interface Work<M, J, A, N = never> {
  /** What all jobs are about; sent once to each worker. */
  readonly matter: M;
  /** Begun in this order. */
  readonly jobs: readonly J[];
  /** Answers come as they are found, not in the order of the jobs. */
  readonly onAnswer: (answer: A, job: J, jobsDone: number) => void;
  /** What is told of a job before its answer. */
  readonly onNews?: (news: N, job: J) => void;
  /** Once: when every job is answered (`fault` is null), or when the first one failed. Never after a cancel. */
  readonly onEnd: (fault: string | null) => void;
}

export interface WorkSpread<M, J, A, N = never> {
  /** Begins a piece of work; what was under way is cancelled. */
  begin(work: Work<M, J, A, N>): void;
  /** Nothing more is heard of what is under way, from this call on; its workers are free or ended `graceMs` later. */
  cancel(): void;
  /** Ends all workers. */
  end(): void;
}

export interface SpreadOptions {
  /** How many workers, ≥ 1. They are started at once, so that the first answer does not wait for that. */
  readonly workers: number;
  readonly start: () => EndableWorker;
  /** How long a worker may go on with a job nobody waits for before it is ended and replaced, ms ≥ 0. */
  readonly graceMs?: number;
}

interface Hand<M, J, A, N> {
  readonly worker: EndableWorker;
  doing: { readonly work: Work<M, J, A, N>; readonly job: J } | null;
  /** The work whose matter it was last sent. */
  knows: Work<M, J, A, N> | null;
}

/**
 * Spreads jobs over a few workers; the latest work wins.
 *
 * A worker that is busy with cancelled work is given `graceMs` to come back, which is cheaper than a new one, and is then
 * ended: a job may take as long as it likes and a cancel is still kept.
 */
export function spreadWork<M, J, A, N = never>({
  workers,
  start,
  graceMs = 50,
}: SpreadOptions): WorkSpread<M, J, A, N> {
  let present: { readonly work: Work<M, J, A, N>; begun: number; done: number } | null = null;
  let hands: Hand<M, J, A, N>[] = [];

  const feed = (hand: Hand<M, J, A, N>) => {
    if (present === null || hand.doing !== null || !hands.includes(hand)) return;
    if (present.begun === present.work.jobs.length) return;
    const { work } = present;
    const job = work.jobs[present.begun++] as J;
    hand.doing = { work, job };
    const message: JobMessage<M, J> = hand.knows === work ? { job } : { matter: work.matter, job };
    hand.knows = work;
    hand.worker.postMessage(message);
  };

  const settle = (hand: Hand<M, J, A, N>, reply: Reply<A>) => {
    const { doing } = hand;
    hand.doing = null;
    if (doing !== null && present?.work === doing.work) {
      if ("fault" in reply) {
        cancel();
        doing.work.onEnd(reply.fault);
      } else {
        present.done++;
        const { done, work } = present;
        work.onAnswer(reply.answer, doing.job, done);
        if (present?.work === work && done === work.jobs.length) {
          present = null;
          work.onEnd(null);
        }
      }
    }
    feed(hand);
  };

  const tell = ({ doing }: Hand<M, J, A, N>, news: N) => {
    if (doing !== null && present?.work === doing.work) doing.work.onNews?.(news, doing.job);
  };

  const dismiss = (gone: (hand: Hand<M, J, A, N>) => boolean) => {
    for (const { worker } of hands.filter(gone)) {
      worker.onmessage = null;
      worker.onerror = null;
      worker.terminate();
    }
    hands = hands.filter((hand) => !gone(hand));
  };

  const hire = () => {
    while (hands.length < workers) {
      const hand: Hand<M, J, A, N> = { worker: start(), doing: null, knows: null };
      hand.worker.onmessage = ({ data }) => {
        const message = data as Reply<A> | News<N>;
        if ("news" in message) tell(hand, message.news);
        else settle(hand, message);
      };
      hand.worker.onerror = ({ message }) => {
        dismiss((one) => one === hand);
        settle(hand, { fault: message ?? "a worker could not be started" });
      };
      hands.push(hand);
    }
  };

  const cancel = () => {
    if (present === null) return;
    const { work } = present;
    present = null;
    if (!hands.some((hand) => hand.doing?.work === work)) return;
    setTimeout(() => {
      const late = hands.length;
      dismiss((hand) => hand.doing?.work === work);
      if (hands.length === late) return;
      hire();
      hands.forEach(feed);
    }, graceMs);
  };

  hire();
  return {
    begin(work) {
      cancel();
      if (work.jobs.length === 0) {
        work.onEnd(null);
        return;
      }
      present = { work, begun: 0, done: 0 };
      hire();
      hands.forEach(feed);
    },
    cancel,
    end() {
      present = null;
      dismiss(() => true);
    },
  };
}
