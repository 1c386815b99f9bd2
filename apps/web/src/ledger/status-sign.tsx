import type { Status } from "@gantline/plan";

export const STATUS_WORD: Readonly<Record<Status, string>> = {
  within: "Within",
  close: "Close",
  over: "Over",
  unknown: "Unknown",
};

/** The same plain shapes as on the drawings, told apart without colour. */
const SHAPE: Readonly<Record<Status, string>> = {
  within: "M3 9.5 L7 13.5 L15 4.5",
  close: "M9 3 L15.5 14.5 H2.5 Z",
  over: "M3.5 3.5 L14.5 14.5 M14.5 3.5 L3.5 14.5",
  unknown: "M5.2 6 C5.2 1.8 12.8 1.8 12.8 6 C12.8 8.8 9 8.6 9 11.4 M9 14.6 V14.7",
};

/** The sign of a status; the word stands beside it wherever it is used. */
export function StatusSign({ status }: { readonly status: Status }) {
  return (
    <svg className={`status-sign is-${status}`} width="18" height="18" viewBox="0 0 18 18" aria-hidden="true">
      <path
        d={SHAPE[status]}
        fill={status === "close" ? "currentColor" : "none"}
        fillOpacity={0.25}
        stroke="currentColor"
        strokeWidth="2"
        strokeLinecap="round"
        strokeLinejoin="round"
      />
    </svg>
  );
}
