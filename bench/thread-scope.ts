/** Gives a worker of the app, on a thread of Node, the global scope it works in: imported before it. */
import { parentPort, type Transferable } from "node:worker_threads";

const scope: {
  onmessage: ((event: { data: unknown }) => void) | null;
  postMessage: (message: unknown, transfer?: Transferable[]) => void;
} = {
  onmessage: null,
  postMessage: (message, transfer) => parentPort?.postMessage(message, transfer),
};
Object.assign(globalThis, { self: scope });
parentPort?.on("message", (data) => scope.onmessage?.({ data }));
