import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { faceAngleCurve } from '../../src/analysis/light/faceAngleCurve'
import { polarisationSpectrum } from '../../src/analysis/light/polarisationSpectrum'
import { rippleCurve } from '../../src/analysis/light/rippleCurve'
import { spectrum } from '../../src/analysis/light/spectrum'
import { demoProject } from '../../src/model/index'
import { faceAngleFigure } from '../../src/plots/faceAngleFigure'
import { rippleFadeFigure, rippleFigure } from '../../src/plots/rippleFigures'
import { polarisationFigure, spectrumFigure } from '../../src/plots/spectrumFigure'

const THEME = { ink: '#000', rule: '#ccc', accent: '#00f', font: 'serif' }
const ID = 'cleaved-dry'
const project = demoProject()
const evaluation = evaluateCandidate(project, ID)

const numbers = (values: unknown): readonly number[] => values as readonly number[]

describe('return loss against face angle', () => {
  const [view] = evaluation.joints
  if (view === undefined) throw new Error('no joint')
  const curve = faceAngleCurve(project, evaluation, view)
  if (curve === null) throw new Error('no curve')
  const figure = faceAngleFigure(curve, THEME)

  test('draws both modes, told apart by their dashes, and nothing above the trusted range but a flat line', () => {
    const lines = figure.data.filter((trace) => trace.mode === 'lines')
    expect(lines.map((trace) => trace.name)).toEqual(['near mode, 10.6 µm', 'far mode, 3.4 µm'])
    expect(new Set(lines.map((trace) => (trace.line as { dash: string }).dash)).size).toBe(2)
    expect(Math.max(...lines.flatMap((trace) => numbers(trace.y)))).toBeLessThanOrEqual(70)
  })

  test('says beyond 65 dB only that, in words and in the table', () => {
    expect(figure.sentence).toContain('57.5 dB at 8°')
    expect(figure.table.rows.at(-1)?.[1]).toBe('> 65')
    expect(figure.table.rows[0]?.[1]).toBeCloseTo(14.84, 2)
  })
})

describe('ripple', () => {
  const [ripple] = evaluation.ripples
  if (ripple === undefined) throw new Error('no ripple')
  const result = rippleCurve(project, ID, ripple)
  if (!result.ok || result.value === null) throw new Error('no curve')
  const curve = result.value

  test('shows about three fringes around the gap, about the single pass', () => {
    const { data } = rippleFigure(curve, THEME)
    const [single, rippled] = data
    const differences = numbers(rippled?.y).map((y, i) => y - (numbers(single?.y)[i] ?? 0))
    const crossings = differences.filter((y, i) => i > 0 && y * (differences[i - 1] ?? y) < 0).length
    expect(crossings).toBeGreaterThanOrEqual(5)
    expect(Math.max(...differences) - Math.min(...differences)).toBeCloseTo(ripple.peakToPeakDb, 1)
  })

  test('fades with the gap', () => {
    const fade = numbers(rippleFadeFigure(curve, THEME).data[0]?.y)
    for (const [i, db] of fade.entries()) if (i > 0) expect(db).toBeLessThan(fade[i - 1] ?? 0)
    expect(fade[0]).toBeGreaterThan(2 * (fade.at(-1) ?? 0))
  })
})

describe('the spectrum', () => {
  const result = spectrum(project, ID, [1.6, 1.68])
  if (!result.ok) throw new Error('no spectrum')
  const found = result.value

  test('has a row for every wavelength, and parts only where they are asked for and are something', () => {
    const plain = spectrumFigure(found, 2, false, THEME)
    const withParts = spectrumFigure(found, 2, true, THEME)
    expect(plain.table.rows).toHaveLength(201)
    expect(plain.data).toHaveLength(2)
    expect(withParts.data.slice(2).map((trace) => trace.name)).toEqual([
      'mode mismatch',
      'gap',
      'reflection',
      'taper',
    ])
  })

  test('draws a limit only where it does not press the curve flat', () => {
    const shapes = (limitDb: number) =>
      (spectrumFigure(found, limitDb, false, THEME).layout.shapes as unknown[]).length
    expect(shapes(2)).toBe(1)
    expect(shapes(6.5)).toBe(2)
  })

  test('of both polarisations tells the largest difference', () => {
    const curves = polarisationSpectrum(project, ID)
    if (!curves.ok) throw new Error('no curves')
    expect(polarisationFigure(curves.value, THEME).sentence).toContain('at most 0.00 dB')
  })
})
