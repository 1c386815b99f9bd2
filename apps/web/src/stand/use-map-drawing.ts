import { type Drawing, drawStandMap, type StandCells, standCells } from "@gantline/drawing";
import { useMemo } from "react";
import { useDesk, useSystem } from "../state/desk-context.tsx";
import { useShownSearch, useStand } from "./use-stand.ts";

const NOTHING: StandCells = standCells({ westM: 0, southM: 0, cellM: 1, columns: 0, rows: 0 }, []);

/** The map as it is to be drawn now. */
export function useMapDrawing(): { readonly drawing: Drawing; readonly cells: StandCells } {
  const system = useSystem();
  const plan = useDesk((desk) => desk.shownPlan);
  const evaluation = useDesk((desk) => desk.evaluation);
  const shown = useStand((desk) => desk.shown);
  const search = useShownSearch();
  const cells = search?.cells ?? NOTHING;
  const deviceId = search?.device.id;
  const entries = useStand((desk) => desk.list?.entries);
  const beside = useStand((desk) => desk.beside);
  const marked = useMemo(
    () =>
      (entries ?? [])
        .map(({ choice }, index) => ({ ...choice, number: index + 1 }))
        .filter(({ device, number }) => device.id === deviceId && beside.includes(number)),
    [entries, beside, deviceId],
  );
  const drawing = useMemo(
    () => drawStandMap(plan, evaluation, cells, { system, shown, marked }),
    [plan, evaluation, cells, system, shown, marked],
  );
  return { drawing, cells };
}
