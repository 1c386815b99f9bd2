/** The app's worker for lines that go, on a thread of Node. */
import { parentPort } from "node:worker_threads";

const scope: { onmessage: ((event: { data: unknown }) => void) | null; postMessage: (message: unknown) => void } = {
  onmessage: null,
  postMessage: (message) => parentPort?.postMessage(message),
};
Object.assign(globalThis, { self: scope });
await import("../apps/web/src/state/let-go-worker.ts");
parentPort?.on("message", (data) => scope.onmessage?.({ data }));
