export * from "./primitives.ts";
