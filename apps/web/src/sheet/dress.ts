import { type Drawing, key, northArrow, scaleBar, surveyGrid, type Viewport, windArrow } from "@gantline/drawing";
import type { UnitSystem } from "@gantline/plan";

/** What stays put on the screen whatever is drawn: the grid under it, scale bar and north over it. */
export function sheetFurniture(id: Drawing["id"], viewport: Viewport, system: UnitSystem) {
  return {
    under: surveyGrid(viewport, system),
    over: [...scaleBar(viewport, system), ...(id === "plan" ? northArrow(viewport) : [])],
  };
}

/** The drawing with what stays put, and over it the wind and, where wanted, the key. */
export function dress(
  drawing: Drawing,
  viewport: Viewport,
  system: UnitSystem,
  withKey: boolean,
  { under, over } = sheetFurniture(drawing.id, viewport, system),
): Drawing {
  return {
    ...drawing,
    primitives: [
      ...under,
      ...drawing.primitives,
      ...(withKey ? key(drawing, viewport, system) : []),
      ...over,
      ...(drawing.wind === null ? [] : windArrow(viewport, drawing.wind)),
    ],
  };
}
