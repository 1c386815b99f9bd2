export { contrastRatio } from "./contrast.ts";
export { type Axis, type AxisTick, axisFor } from "./curve/axis-ticks.ts";
export type { Chart, CurveOptions, Plot } from "./curve/chart.ts";
export { shareAt, whenAt, whenThrough, xAt } from "./curve/scrub.ts";
export { seriesCurve, seriesSays } from "./curve/series-curve.ts";
export { svgChart } from "./curve/svg-chart.ts";
export { type WorstCurveOptions, worstCurve, worstSays } from "./curve/worst-curve.ts";
export { mostText } from "./let-go/case-says.ts";
export { cutsCurve } from "./let-go/cuts-curve.ts";
export { drawCritical } from "./let-go/draw-critical.ts";
export { drawLetGo } from "./let-go/draw-let-go.ts";
export { drawTechnique } from "./let-go/draw-technique.ts";
export { dropCurve, nearestCurve, pointCurve, swingCurve, tensionCurve } from "./let-go/motion-curve.ts";
export { motionEndS } from "./let-go/replayed.ts";
export { cellText, shareSlackChart } from "./let-go/share-slack-chart.ts";
export { ratingSays, techniqueSays, techniqueTitle } from "./let-go/technique-says.ts";
export { type TechniqueSheetOptions, techniqueSheet } from "./let-go/technique-sheet.ts";
export { key } from "./overlays/key.ts";
export { northArrow, windArrow } from "./overlays/north-arrow.ts";
export { type ScaleBar, scaleBar, scaleBarLength } from "./overlays/scale-bar.ts";
export { surveyGrid } from "./overlays/survey-grid.ts";
export { type OverlayOptions, withOverlays } from "./overlays/with-overlays.ts";
export { drawPlan } from "./plan-view.ts";
export * from "./primitives.ts";
export {
  FEW_WORDS_PRIORITY,
  type LayoutOptions,
  layoutDrawing,
  SMALLEST_TEXT_PX,
  wordsForScale,
} from "./render/layout-drawing.ts";
export { dashLengths, type SheetMark } from "./render/sheet-mark.ts";
export { SheetMemory } from "./render/sheet-memory.ts";
export type { SvgNode } from "./render/svg-node.ts";
export { type DrawnSection, sectionFrame } from "./section/section-frame.ts";
export { drawSection, type SectionOptions } from "./section.ts";
export { percentAlong, stageAndPercent } from "./shared/moment-text.ts";
export { stageStatus } from "./shared/stage-status.ts";
export { STATUS_SIGN, STATUS_TONE, statusWords } from "./shared/status-sign.ts";
export { type SweptStage, sweptStages } from "./shared/swept-stages.ts";
export type { ViewOptions } from "./shared/view-options.ts";
export { cellSays } from "./stand-map/cell-says.ts";
export type { MapShown } from "./stand-map/draw-cells.ts";
export { drawParkedOff } from "./stand-map/draw-parked-off.ts";
export { drawPlacement } from "./stand-map/draw-placement.ts";
export { drawStandMap, STAND_MAP_LEAVES_OUT, type StandMapOptions } from "./stand-map/draw-stand-map.ts";
export { MAP_FIGURE_WORDS, MAP_FIGURES, type MapFigure } from "./stand-map/map-figure.ts";
export { otherSays, reasonSays } from "./stand-map/reason-says.ts";
export { figureOf, type StandCells, type StandFound, type StandLayer, standCells } from "./stand-map/stand-cells.ts";
export { reasonWord } from "./stand-map/stand-classes.ts";
export { type FramePictureOptions, framePicture } from "./storyboard/frame-picture.ts";
export { type StoryboardFrame, storyboard } from "./storyboard/storyboard.ts";
export { type StoryboardSheetOptions, storyboardSheet } from "./storyboard/storyboard-sheet.ts";
export { type FrameWords, storyboardWords } from "./storyboard/storyboard-words.ts";
export { type SheetOptions, sheetViewport, svgSheet } from "./svg-sheet.ts";
export { svgText } from "./svg-text.ts";
export * from "./theme.ts";
export { FONT_FAMILY, type SvgOptions, svgTree } from "./to-svg.ts";
export * from "./viewport.ts";
