import { join } from "node:path";
import { Worker } from "node:worker_threads";
import type { EndableWorker } from "@gantline/runtime";
import { buildSync } from "esbuild";

export interface ThreadsOf {
  /** Starts one more thread, as the app starts a worker. */
  readonly start: () => EndableWorker;
  /** Jobs that threads still running have been sent and have not answered. */
  readonly busy: () => number;
  readonly end: () => Promise<unknown>;
}

/** Threads of Node that run a worker of the app, built in one file as it is served. @param path of the worker, from the root */
export function threadsOf(path: string): ThreadsOf {
  const file = built(path);
  const threads = new Map<Worker, number>();
  const add = (thread: Worker, jobs: number) => {
    const before = threads.get(thread);
    if (before !== undefined) threads.set(thread, before + jobs);
  };
  return {
    start() {
      const thread = new Worker(file);
      threads.set(thread, 0);
      const asked: EndableWorker = {
        postMessage: (message) => {
          add(thread, 1);
          thread.postMessage(message);
        },
        onmessage: null,
        onerror: null,
        terminate: () => {
          threads.delete(thread);
          void thread.terminate();
        },
      };
      thread.on("message", (data: object) => {
        if (!("news" in data)) add(thread, -1);
        asked.onmessage?.({ data });
      });
      thread.on("error", (error: Error) => asked.onerror?.({ message: error.message }));
      return asked;
    },
    busy: () => [...threads.values()].reduce((sum, jobs) => sum + jobs, 0),
    end: () => Promise.all([...threads.keys()].map((thread) => thread.terminate())),
  };
}

function built(path: string): string {
  const root = join(import.meta.dirname, "..");
  const outfile = join(root, ".tmp", `thread-${path.replaceAll("/", "-").replace(/\.ts$/, ".mjs")}`);
  buildSync({
    stdin: { contents: `import "./bench/thread-scope.ts";\nimport "./${path}";\n`, resolveDir: root, loader: "ts" },
    outfile,
    bundle: true,
    platform: "node",
    format: "esm",
    logLevel: "error",
  });
  return outfile;
}
