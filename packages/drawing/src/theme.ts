import type { Tone } from "./primitives.ts";

export type ThemeName = "day" | "night";
export type Theme = Readonly<Record<Tone, string>>;

/** Tones no text is set in: lines and fills behind it. Every other tone has at least 7:1 on the paper. */
export const BACKGROUND_TONES: readonly Tone[] = ["paper", "grid"];

/** Day: dark inks on warm white survey paper. Night: pale inks on blue-black, no large bright field. */
export const THEMES: Readonly<Record<ThemeName, Theme>> = {
  day: {
    paper: "#faf6ea",
    grid: "#e3dcc8",
    ink: "#1b1d20",
    faint: "#55534c",
    earth: "#5c4326",
    structure: "#38393d",
    water: "#12507c",
    hazard: "#8c1d12",
    ladder: "#14171b",
    vehicle: "#3d4653",
    load: "#3b2a6b",
    mainA: "#0b4389",
    mainB: "#155338",
    tagline: "#6f3c06",
    tether: "#3d4a05",
    force: "#86124c",
    accent: "#0d4f5c",
    within: "#155236",
    close: "#6d4300",
    over: "#961109",
    unknown: "#4a3f7a",
  },
  night: {
    paper: "#0a111c",
    grid: "#1a2637",
    ink: "#eceff3",
    faint: "#a5afbd",
    earth: "#cfb38c",
    structure: "#c3cad4",
    water: "#86c5f0",
    hazard: "#ffa091",
    ladder: "#ffffff",
    vehicle: "#b6c3d5",
    load: "#cdbcff",
    mainA: "#92c1ff",
    mainB: "#8fdcb2",
    tagline: "#f5bf7a",
    tether: "#d6e07a",
    force: "#ff9fcb",
    accent: "#86d9e6",
    within: "#8fdcae",
    close: "#ffcc70",
    over: "#ff9d90",
    unknown: "#c6bbff",
  },
};
