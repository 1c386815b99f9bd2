import { type Drawing, framePicture } from "@gantline/drawing";
import { memo, useMemo, useRef } from "react";
import { SvgSheet } from "../sheet/svg-sheet.tsx";
import { useSize } from "../sheet/use-size.ts";
import { useDesk } from "../state/desk-context.tsx";
import { useSeen } from "./use-seen.ts";

/** A small drawing, drawn once it comes on the screen; what it shows is said beside it. */
export const SmallPicture = memo(function SmallPicture({ draw }: { readonly draw: () => Drawing | null }) {
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  const seen = useSeen(box);
  const theme = useDesk((desk) => desk.look);
  const drawing = useMemo(() => (seen ? draw() : null), [seen, draw]);
  const picture = useMemo(
    () => (drawing === null || size === null ? null : framePicture(drawing, { ...size, theme })),
    [drawing, size, theme],
  );
  return (
    <div ref={box} aria-hidden="true" className="small-picture">
      {picture !== null && <SvgSheet tree={picture} />}
    </div>
  );
});
