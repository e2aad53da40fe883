import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { light } from '../../src/figures/path/pathLight'
import { pathStops } from '../../src/figures/path/pathStops'
import { drawPathStrip, pathFigure, pathThumbnail } from '../../src/figures/path/pathStrip'
import { placedStops } from '../../src/figures/path/stripLayout'
import { element, markupText } from '../../src/figures/render/markup'
import { PALETTES } from '../../src/figures/render/palette'
import { demoProject } from '../../src/model/index'
import { clipped, collisions, textBoxes } from './support/textBoxes'

const project = demoProject()

describe.each(project.candidates.map((design) => [design.name, design] as const))(
  'the path of %s',
  (_, design) => {
    const evaluation = evaluateCandidate(project, design.id)
    const stops = pathStops(project, design, evaluation)

    test('has every element in order, and the losses below them add up to the nominal loss without user lines', () => {
      expect(stops.map(({ id }) => id)).toEqual(design.chain.map(({ id }) => id))
      const own = new Set(design.userLines.map(({ id }) => id))
      const lines = evaluation.lines.filter(({ elementId }) => !own.has(elementId))
      const sum = stops.reduce((total, { lossDb }) => total + lossDb, 0)
      expect(sum).toBeCloseTo(
        lines.reduce((total, { lossDb }) => total + lossDb, 0),
        9,
      )
    })

    test('begins each gap with the emitted mode, which widens by the law of a Gaussian beam', () => {
      for (const { elementId, joint } of evaluation.joints) {
        const gap = stops.find(({ id }) => id === elementId)
        if (gap?.kind !== 'gap' || joint.waistXUm !== 0) continue
        expect(gap.stations[0]?.radiusXUm).toBeCloseTo(joint.emitterMfdXUm / 2, 9)
        // w² = w0² (1 + (z / zR)²), zR = π n w0² / λ: Kogelnik and Li, Appl. Opt. 5 (1966) 1550, eq. 20.
        const w0 = joint.emitterMfdXUm / 2
        const zR = (Math.PI * joint.index * w0 ** 2) / joint.wavelengthUm
        expect(gap.stations.at(-1)?.radiusXUm).toBeCloseTo(w0 * Math.hypot(1, joint.gapUm / zR), 6)
      }
    })

    test.each([820, 560, 1900])('has no name over another or out of the strip at %d px', (widthPx) => {
      const strip = drawPathStrip(stops, { widthPx, heightPx: 110, selectedId: stops[1]?.id }, PALETTES.light)
      const boxes = textBoxes(strip)
      expect(boxes.length).toBeGreaterThanOrEqual(2 * stops.length)
      expect([...collisions(boxes), ...clipped(boxes, widthPx, 110)]).toEqual([])
      expect(markupText(strip)).not.toMatch(/NaN|Infinity|undefined/)
    })

    test.each([560, 792])(
      'says the loss of each element whole, however narrow its place, at %d px',
      (widthPx) => {
        const strip = drawPathStrip(stops, { widthPx, heightPx: 110 }, PALETTES.light)
        const said = textBoxes(strip).map(({ words }) => words)
        for (const { lossDb } of stops) {
          if (lossDb <= 0.005) continue
          expect(
            said.some((text) => text.endsWith(`${lossDb.toFixed(2)} dB`)),
            said.join(' | '),
          ).toBe(true)
        }
      },
    )

    test('is tabled for the sheet, and small without words', () => {
      const { table } = pathFigure('path', design.name, stops)
      expect(table.rows.map((row) => row[3])).toEqual(stops.map(({ lossDb }) => lossDb))
      expect(textBoxes(pathThumbnail(stops, 160, 44, PALETTES.light))).toEqual([])
    })
  },
)

test('on paper a name that is too long for its element goes on in a second line, above its detail', () => {
  const own = structuredClone(project)
  const design = own.candidates.find(({ id }) => id === 'ssc-chip')
  const [fibre] = own.fibres
  if (design === undefined || fibre === undefined) throw new Error('no design')
  const [long, longest] = ['Standard single-mode fibre of the first lot', 'W'.repeat(300)]
  const boxes = (name: string) => {
    for (const each of own.fibres) each.name = name
    const stops = pathStops(own, design, evaluateCandidate(own, design.id))
    return textBoxes(pathFigure('path', design.name, stops).picture.draw(PALETTES.light))
  }
  const all = boxes(long).map(({ words }) => words)
  const start = all.find((words) => words.startsWith('Standard'))
  expect(`${start} ${all[all.indexOf(start ?? '') + 1]}`).toBe(long)
  expect(boxes(longest).some(({ words }) => /^W+…$/.test(words))).toBe(true)
  const short = boxes('Fibre').map(({ words }) => words)
  expect(short.length).toBe(all.length - 1)
})

test('stops share the width without gaps', () => {
  const [design] = project.candidates
  if (design === undefined) throw new Error('no design')
  const placed = placedStops(pathStops(project, design, evaluateCandidate(project, design.id)), 800)
  expect(placed[0]?.leftPx).toBe(0)
  expect(placed.at(-1)?.rightPx).toBeCloseTo(800, 9)
  for (const [i, placedStop] of placed.entries())
    if (i > 0) expect(placedStop.leftPx).toBe(placed[i - 1]?.rightPx)
})

test('the light along the strip is paler by the root of the power that is left in the middle of each element', () => {
  const [design] = project.candidates
  if (design === undefined) throw new Error('no design')
  const losses = [0, 10, 6]
  const stops = pathStops(project, design, evaluateCandidate(project, design.id))
    .slice(0, 3)
    .map((stop, i) => ({ ...stop, lossDb: losses[i] ?? 0 }))
  const drawn = light(placedStops(stops, 600), { palette: PALETTES.light, half: (um) => um, middlePx: 50 })
  const [first, second, third] = [
    ...markupText(element('g', {}, drawn)).matchAll(/fill-opacity="([\d.]+)"/g),
  ].flatMap(([, opacity], i) => (i % 8 === 0 ? [Number(opacity)] : []))
  // Half of its own loss lies before the middle of an element: 0, 5 and 13 dB, whose roots are 1, 10^-0.25 and 10^-0.65.
  expect(Number(second) / Number(first)).toBeCloseTo(10 ** -0.25, 2)
  expect(Number(third) / Number(first)).toBeCloseTo(10 ** -0.65, 2)
})
