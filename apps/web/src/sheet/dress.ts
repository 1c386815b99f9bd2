import { type Drawing, key, northArrow, scaleBar, surveyGrid, type Viewport, windArrow } from "@gantline/drawing";
import type { UnitSystem } from "@gantline/plan";

/** The drawing with what stays put on the screen: grid under it; scale bar, north, wind and, where wanted, the key over it. */
export function dress(drawing: Drawing, viewport: Viewport, system: UnitSystem, withKey: boolean): Drawing {
  return {
    ...drawing,
    primitives: [
      ...surveyGrid(viewport, system),
      ...drawing.primitives,
      ...(withKey ? key(drawing, viewport, system) : []),
      ...scaleBar(viewport, system),
      ...(drawing.id === "plan" ? northArrow(viewport) : []),
      ...(drawing.wind === null ? [] : windArrow(viewport, drawing.wind)),
    ],
  };
}
