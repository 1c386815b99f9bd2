import { expect, it } from "vitest";
import { type AnsweringScope, answerAll } from "./answer-all.ts";
import { type AskedWorker, askLatest } from "./ask-latest.ts";

/** Both sides of a worker on one thread; messages lie in its box until they are handed over. */
function worker() {
  const box: unknown[] = [];
  const asked: AskedWorker = { postMessage: (message) => box.push(message), onmessage: null, onerror: null };
  const scope: AnsweringScope = { postMessage: (data) => asked.onmessage?.({ data }), onmessage: null };
  return { asked, scope, box, handOver: () => scope.onmessage?.({ data: box.shift() }) };
}

it("begins only the latest of what waits, and answers in order", () => {
  const { asked, scope, box, handOver } = worker();
  answerAll(scope, (n: number) => n * n);
  const got: unknown[] = [];
  const ask = askLatest<number, number>(asked, (reply, question) => got.push([question, reply]));
  for (const n of [1, 2, 3, 4]) ask(n);
  expect(box).toEqual([1]);
  handOver();
  expect(box).toEqual([4]);
  handOver();
  expect(got).toEqual([
    [1, { answer: 1 }],
    [4, { answer: 16 }],
  ]);
  ask(5);
  expect(box).toEqual([5]);
});

it("says what the worker failed of, and goes on", () => {
  const { asked, scope, handOver } = worker();
  answerAll(scope, (n: number) => {
    if (n < 0) throw new Error("below zero");
    return n;
  });
  const got: unknown[] = [];
  const ask = askLatest<number, number>(asked, (reply) => got.push(reply));
  ask(-1);
  ask(2);
  handOver();
  handOver();
  ask(3);
  asked.onerror?.({ message: "gone" });
  expect(got).toEqual([{ fault: "below zero" }, { answer: 2 }, { fault: "gone" }]);
});
