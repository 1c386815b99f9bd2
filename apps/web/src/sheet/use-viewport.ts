import { type Drawing, fitViewport, type Viewport } from "@gantline/drawing";
import { useRef, useState } from "react";
import type { Size } from "./use-size.ts";

type Shown = Pick<Viewport, "centre" | "pxPerM">;

/** Room for the grid's numbers and the scale bar, and at the section's right for its heights, px. */
const MARGIN = { left: 34, right: 34, top: 34, bottom: 58 } as const;
const HEIGHTS_PX = 66;

/**
 * The part of the world a drawing shows: all of it until the reader moves or enlarges it.
 * While it shows all, it is fitted anew only when `fitKey` (the plan, the sheet's size) changes, not while things are dragged about.
 */
export function useViewport(
  drawing: Drawing,
  size: Size | null,
  fitKey: string,
): { viewport: Viewport | null; show: (next: (now: Viewport) => Viewport) => void; fit: () => void } {
  const [chosen, setChosen] = useState<{ readonly key: string; readonly shown: Shown } | null>(null);
  const [fits, setFits] = useState(0);
  const fitted = useRef<{ readonly key: string; readonly viewport: Viewport } | null>(null);
  if (size === null) return { viewport: null, show: () => {}, fit: () => {} };

  const planKey = fitKey;
  const key = `${planKey} ${size.widthPx}×${size.heightPx} ${fits}`;
  if (fitted.current?.key !== key) fitted.current = { key, viewport: fitTo(drawing, size) };
  const viewport = chosen?.key === planKey ? { ...size, ...chosen.shown } : fitted.current.viewport;
  return {
    viewport,
    show: (next) =>
      setChosen((old) => {
        const { centre, pxPerM } = next(old?.key === planKey ? { ...size, ...old.shown } : viewport);
        return { key: planKey, shown: { centre, pxPerM } };
      }),
    fit: () => {
      setChosen(null);
      setFits((count) => count + 1);
    },
  };
}

const fitTo = ({ id, bounds }: Drawing, { widthPx, heightPx }: Size): Viewport =>
  fitViewport(bounds, widthPx, heightPx, id === "section" ? { ...MARGIN, right: MARGIN.right + HEIGHTS_PX } : MARGIN);
