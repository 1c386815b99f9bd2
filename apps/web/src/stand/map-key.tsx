import { fitViewport, type KeyEntry, svgTree } from "@gantline/drawing";
import { memo } from "react";
import { SvgSheet } from "../sheet/svg-sheet.tsx";
import { useDesk } from "../state/desk-context.tsx";
import { useMapDrawing } from "./use-map-drawing.ts";

/** What each pattern on the map means. */
export function MapKey() {
  const { drawing } = useMapDrawing();
  if (drawing.key.length === 0) return null;
  return (
    <section aria-label="Key to the map">
      <MapKeyList entries={drawing.key} />
    </section>
  );
}

/** Lines and patterns of a drawing with what each means. */
export function MapKeyList({ entries }: { readonly entries: readonly KeyEntry[] }) {
  return (
    <ul className="map-key">
      {entries.map((entry) => (
        <li key={entry.text}>
          <Swatch style={entry.style} area={entry.area ?? false} />
          {entry.text}
        </li>
      ))}
    </ul>
  );
}

const WIDE_PX = 46;
const HIGH_PX = 26;

const Swatch = memo(function Swatch({ style, area }: Pick<KeyEntry, "style"> & { readonly area: boolean }) {
  const theme = useDesk((desk) => desk.look);
  const bounds = { minX: 0, minY: 0, maxX: WIDE_PX - 2, maxY: HIGH_PX - 2 };
  const tree = svgTree(
    {
      title: "",
      description: "",
      primitives: [
        {
          kind: "path",
          points: area
            ? [
                [0, 0],
                [bounds.maxX, 0],
                [bounds.maxX, bounds.maxY],
                [0, bounds.maxY],
              ]
            : [
                [0, bounds.maxY / 2],
                [bounds.maxX, bounds.maxY / 2],
              ],
          closed: area,
          style,
        },
      ],
    },
    fitViewport(bounds, WIDE_PX, HIGH_PX, 1),
    { theme },
  );
  return (
    <span aria-hidden="true" className="swatch">
      <SvgSheet tree={tree} />
    </span>
  );
});
