import type { SvgNode } from "@gantline/drawing";
import { memo, useLayoutEffect, useRef } from "react";
import { patchSvg } from "./patch-svg.ts";

/**
 * A drawing's SVG tree on the page. The elements in it are looked after here, not by React, which takes as long over a
 * drawing that follows the hand as the mechanics do (decision record 4). Title, description and role come with the tree.
 */
export const SvgSheet = memo(function SvgSheet({ tree }: { readonly tree: SvgNode }) {
  const svg = useRef<SVGSVGElement>(null);
  const shown = useRef<SvgNode | null>(null);
  useLayoutEffect(() => {
    if (svg.current === null) return;
    patchSvg(svg.current, shown.current, tree);
    shown.current = tree;
  }, [tree]);
  return <svg ref={svg} />;
});
