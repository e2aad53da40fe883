// Every figure that the demo project can show, with the size at which the app or the sheet shows it.

import { runArray } from '../../../src/analysis/array/runArray'
import { evaluateCandidate, runYield } from '../../../src/analysis/index'
import { faceAngleCurve } from '../../../src/analysis/light/faceAngleCurve'
import { polarisationSpectrum } from '../../../src/analysis/light/polarisationSpectrum'
import { rippleCurve } from '../../../src/analysis/light/rippleCurve'
import { spectrum } from '../../../src/analysis/light/spectrum'
import { temperatureSweep } from '../../../src/analysis/temperature/temperatureSweep'
import { lossCurve, toleranceWindows } from '../../../src/analysis/tolerance/toleranceCurve'
import { axisRange, toleranceMap } from '../../../src/analysis/tolerance/toleranceMap'
import { jointDrawings } from '../../../src/figures/drawing/jointDrawings'
import type { Figure } from '../../../src/figures/figure'
import { faceAngleFigure } from '../../../src/figures/light/faceAngle'
import { rippleFadeFigure, rippleFigure } from '../../../src/figures/light/ripple'
import { polarisationFigure, spectrumFigure } from '../../../src/figures/light/spectrum'
import { AXIS_TEXT } from '../../../src/figures/loss/axisText'
import { channelLossesFigure } from '../../../src/figures/loss/channelLosses'
import { lossCurveFigure } from '../../../src/figures/loss/lossCurve'
import { lossMapFigure } from '../../../src/figures/loss/lossMap'
import { offsetCurvesFigure } from '../../../src/figures/loss/offsetCurves'
import { temperatureFigure } from '../../../src/figures/loss/temperature'
import { waterfallFigure } from '../../../src/figures/loss/waterfall'
import { yieldHistogramFigure } from '../../../src/figures/loss/yieldHistogram'
import { demoProject } from '../../../src/model/index'
import type { Result } from '../../../src/model/issue'

const LIMIT_DB = 2
const LIMIT = { limitDb: LIMIT_DB, name: 'P99 limit' }

function resultOf<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.issues.map(({ message }) => message).join('; '))
  return result.value
}

const project = demoProject()
const evaluations = new Map(project.candidates.map(({ id }) => [id, evaluateCandidate(project, id)]))

export function demoFigures(designId: string): readonly Figure[] {
  const design = project.candidates.find(({ id }) => id === designId)
  const evaluation = evaluations.get(designId)
  if (evaluation === undefined) throw new Error(`no design ${designId}`)
  const view = evaluation.joints.at(-1)
  if (design === undefined || view === undefined) throw new Error(`no joint in ${designId}`)
  const { joint } = view
  const maps = (
    [
      ['offsetXUm', 'offsetYUm'],
      ['gapUm', 'tiltXRad'],
    ] as const
  ).map(([x, y]) =>
    lossMapFigure(`map-${x}-${y}`, toleranceMap(joint, x, y, 21), AXIS_TEXT[x], AXIS_TEXT[y], {
      halfX: 0.5,
      halfY: y === 'tiltXRad' ? 0.005 : 0.5,
    }),
  )
  const windows = toleranceWindows(joint)
  const curves = windows.map((window) => {
    const [from, to] = axisRange(joint, window.axis)
    const curve = lossCurve(joint, window.axis, from, to, 101)
    return lossCurveFigure(curve, window, evaluation.nominalDb, AXIS_TEXT[window.axis])
  })
  const [aim] = runArray(project, designId, { samples: 8 }).aims
  const [ripple] = evaluation.ripples
  const ripples = ripple === undefined ? null : resultOf(rippleCurve(project, designId, ripple))
  const faces = faceAngleCurve(project, evaluation, view)
  const spectra = resultOf(spectrum(project, designId))
  const temperature = design.mount === undefined ? null : resultOf(temperatureSweep(project, designId))
  return [
    ...maps,
    ...curves,
    offsetCurvesFigure(view, 'the joint'),
    waterfallFigure('budget', design.name, evaluation.lines),
    yieldHistogramFigure('yield', runYield(project, designId, { samples: 256, rankingPoints: null })),
    ...(aim === undefined ? [] : [channelLossesFigure(aim, LIMIT_DB, false)]),
    spectrumFigure(spectra, LIMIT, false),
    spectrumFigure(spectra, LIMIT, true),
    polarisationFigure(resultOf(polarisationSpectrum(project, designId))),
    ...(ripples === null ? [] : [rippleFigure(ripples), rippleFadeFigure(ripples)]),
    ...(faces === null ? [] : [faceAngleFigure(faces)]),
    ...(temperature === null ? [] : [temperatureFigure(temperature, LIMIT)]),
    ...jointDrawings(project, design, evaluation),
  ]
}
