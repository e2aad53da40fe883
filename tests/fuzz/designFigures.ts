// Every figure that the page draws of one design, with few points, as data and as the picture they become.

import { faceAngleCurve } from '../../src/analysis/light/faceAngleCurve'
import { polarisationSpectrum } from '../../src/analysis/light/polarisationSpectrum'
import { rippleCurve } from '../../src/analysis/light/rippleCurve'
import { spectrum } from '../../src/analysis/light/spectrum'
import type { Evaluation } from '../../src/analysis/results/evaluation'
import { temperatureSweep } from '../../src/analysis/temperature/temperatureSweep'
import { lossCurve, toleranceWindows } from '../../src/analysis/tolerance/toleranceCurve'
import { axisRange, toleranceMap } from '../../src/analysis/tolerance/toleranceMap'
import { jointDrawings } from '../../src/figures/drawing/jointDrawings'
import type { Figure } from '../../src/figures/figure'
import { faceAngleFigure } from '../../src/figures/light/faceAngle'
import { rippleFadeFigure, rippleFigure } from '../../src/figures/light/ripple'
import { polarisationFigure, spectrumFigure } from '../../src/figures/light/spectrum'
import { AXIS_TEXT } from '../../src/figures/loss/axisText'
import { lossCurveFigure } from '../../src/figures/loss/lossCurve'
import { lossMapFigure } from '../../src/figures/loss/lossMap'
import { offsetCurvesFigure } from '../../src/figures/loss/offsetCurves'
import { temperatureFigure } from '../../src/figures/loss/temperature'
import { waterfallFigure } from '../../src/figures/loss/waterfall'
import { mountStacks } from '../../src/figures/path/pathMount'
import { pathStops } from '../../src/figures/path/pathStops'
import { pathFigure } from '../../src/figures/path/pathStrip'
import { markupText } from '../../src/figures/render/markup'
import { PALETTES } from '../../src/figures/render/palette'
import { svgPicture } from '../../src/figures/render/picture'
import type { Candidate } from '../../src/model/schema/candidate'
import type { Project } from '../../src/model/schema/project'

const WAVELENGTHS = 21
const POINTS = 21
const MAP_POINTS = 9
const LIMIT_DB = 2
const LIMIT = { limitDb: LIMIT_DB, name: 'P99 limit' }

export type AskFigures = (name: string, draw: () => readonly Figure[]) => void

/** Hands each kind of figure to `ask`, which calls for it; a figure whose answer is refused is not drawn. */
export function askDesignFigures(
  project: Project,
  design: Candidate,
  evaluation: Evaluation,
  ask: AskFigures,
): void {
  const { name } = design
  ask('path', () => [
    pathFigure('path', name, pathStops(project, design, evaluation), mountStacks(design)),
    ...jointDrawings(project, design, evaluation),
  ])
  ask('budget', () => [waterfallFigure('budget', name, evaluation.lines)])
  ask('spectrum', () => {
    const single = spectrum(project, design.id, undefined, WAVELENGTHS)
    const polarised = polarisationSpectrum(project, design.id)
    return [
      ...(single.ok ? [true, false].map((parts) => spectrumFigure(single.value, LIMIT, parts)) : []),
      ...(polarised.ok ? [polarisationFigure(polarised.value)] : []),
    ]
  })
  ask('temperature', () => {
    const sweep = temperatureSweep(project, design.id)
    return sweep.ok ? [temperatureFigure(sweep.value, LIMIT)] : []
  })
  for (const ripple of evaluation.ripples) {
    ask('ripple', () => {
      const curve = rippleCurve(project, design.id, ripple)
      return curve.ok && curve.value !== null
        ? [rippleFigure(curve.value), rippleFadeFigure(curve.value)]
        : []
    })
  }
  for (const view of evaluation.joints) {
    const { joint } = view
    ask('face angle', () => {
      const curve = faceAngleCurve(project, evaluation, view)
      return curve === null ? [] : [faceAngleFigure(curve)]
    })
    ask('offsets', () => [offsetCurvesFigure(view, name)])
    ask('curves', () =>
      toleranceWindows(joint).map((window) => {
        const [from, to] = axisRange(joint, window.axis)
        const curve = lossCurve(joint, window.axis, from, to, POINTS)
        return lossCurveFigure(curve, window, evaluation.nominalDb, AXIS_TEXT[window.axis])
      }),
    )
    ask('maps', () =>
      (
        [
          ['offsetXUm', 'offsetYUm'],
          ['gapUm', 'tiltXRad'],
        ] as const
      ).map(([x, y]) =>
        lossMapFigure('map', toleranceMap(joint, x, y, MAP_POINTS), AXIS_TEXT[x], AXIS_TEXT[y], {
          halfX: 0.5,
          halfY: 0.005,
        }),
      ),
    )
  }
}

/** The figures and, as texts, what each becomes on paper. */
export function drawn(figures: readonly Figure[]): unknown {
  return figures.map((figure) => [
    figure,
    markupText(svgPicture(figure.picture, { palette: PALETTES.paper })),
  ])
}
