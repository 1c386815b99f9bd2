import { cellSays, type StandCells, type Viewport, worldToScreen } from "@gantline/drawing";
import { cellMiddle } from "@gantline/engine";
import type { KeyboardEvent } from "react";
import { useDesk, useSystem } from "../state/desk-context.tsx";
import { placeName } from "./place-name.ts";
import { useStandActions } from "./use-stand.ts";
import { useWrite } from "./use-write.ts";

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

interface Props {
  readonly cells: StandCells;
  readonly cell: number | null;
  readonly viewport: Viewport;
}

/** The place asked about: moved by arrow keys one cell, with shift five; what was found there is spoken. Before one is chosen it waits at the present turntable. */
export function PlaceMark({ cells, cell, viewport }: Props) {
  const actions = useStandActions();
  const system = useSystem();
  const write = useWrite();
  const turntable = useDesk((desk) => desk.history.present.aerial.place);
  const { columns, rows, cellM, westM, southM } = cells.grid;
  const within = (value: number, most: number): number => Math.min(Math.max(value, 0), most - 1);
  const column = within(cell === null ? Math.floor((turntable.turntableX - westM) / cellM) : cell % columns, columns);
  const row = within(
    cell === null ? Math.floor((turntable.turntableY - southM) / cellM) : Math.floor(cell / columns),
    rows,
  );
  const at = row * columns + column;
  const found = cells.at(at);
  const middle = cellMiddle(cells.grid, at);
  const [left, top] = worldToScreen(viewport, middle);
  const says = found === null ? "Not looked at yet." : cellSays(found.question, found.band, found.entry, system);
  const sidePx = Math.max(14, cellM * viewport.pxPerM);

  const onKeyDown = (event: KeyboardEvent) => {
    const arrow = ARROWS[event.key];
    if (arrow === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    const step = event.shiftKey ? 5 : 1;
    const next = [within(column + step * arrow[0], columns), within(row + step * arrow[1], rows)] as const;
    actions.lookAt(next[1] * columns + next[0]);
  };
  return (
    <div
      className={`place-mark${cell === null ? " is-waiting" : ""}`}
      style={{
        left: Math.min(Math.max(left, 0), viewport.widthPx),
        top: Math.min(Math.max(top, 0), viewport.heightPx),
      }}
      role="slider"
      tabIndex={0}
      aria-label="Place looked at"
      aria-valuemin={0}
      aria-valuemax={columns * rows - 1}
      aria-valuenow={at}
      aria-valuetext={`${placeName(middle, write)}. ${says}`}
      onKeyDown={onKeyDown}
      onFocus={() => cell === null && actions.lookAt(at)}
    >
      <span className="place-square" style={{ width: sidePx, height: sidePx }} />
    </div>
  );
}
