export * from "./base/vector.ts";
export * from "./base/constants.ts";
export * from "./base/outcome.ts";
export * from "./aerial/device.ts";
export * from "./rope/network.ts";
