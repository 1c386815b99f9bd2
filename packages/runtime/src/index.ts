export * from "./storage/indexed-db-plan-store.ts";
export * from "./storage/memory-plan-store.ts";
export * from "./storage/plan-store.ts";
export * from "./work/answer-all.ts";
export * from "./work/ask-latest.ts";
export * from "./work/do-jobs.ts";
export * from "./work/spread-work.ts";
