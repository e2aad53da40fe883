// Wavefronts and spots of a relay, compared with symmetry, paraxial imaging and the note of the budget.

import { describe, expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { relayPictures } from '../../../src/analysis/light/relayPictures'
import { spotFigure, wavefrontFigure } from '../../../src/figures/field/lensPictures'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Project } from '../../../src/model/schema/project'
import { familiesProject, planoConvexEntry, relayElement } from '../support/families'

const um = (value: number) => quantityOf(value, 'um')

/** Two plano-convex lenses, the second one displaced by so much. */
function projectOf(displacedUm: number): Project {
  const relay = relayElement({ device: undefined, frontGap: um(880), backGap: um(560) })
  relay.lens2.offsetX = um(displacedUm)
  const project = structuredClone(familiesProject(relay))
  project.lenses = [planoConvexEntry('lens-1', 450, 300), planoConvexEntry('lens-2', 300, 150)]
  // A wide mode, so that no ray is lost at the rim of lens 2.
  for (const facet of project.facets) {
    facet.mfdX = um(9)
    facet.mfdY = um(9)
  }
  return project
}

function picturesOf(project: Project) {
  const [pictures] = relayPictures(project, 'relay')
  if (pictures === undefined) throw new Error('a relay with real lenses')
  return pictures
}

describe('in line', () => {
  const { wavefronts, spots } = picturesOf(projectOf(0))

  test('both lenses have a wavefront that is the same on all four sides', () => {
    expect(wavefronts.map(({ lens }) => lens)).toEqual([1, 2])
    for (const { side, errorWaves } of wavefronts) {
      const at = (i: number, j: number) => errorWaves[j * side + i] ?? Number.NaN
      const middle = (side - 1) / 2
      for (const k of [3, 5, 7]) {
        expect(at(middle + k, middle)).toBeCloseTo(at(middle - k, middle), 6)
        expect(at(middle, middle + k)).toBeCloseTo(at(middle + k, middle), 6)
      }
    }
  })

  test('they are as good as the note of the budget says', () => {
    const note = evaluateCandidate(projectOf(0), 'relay').validity.find(({ message }) =>
      message.startsWith('Aberration'),
    )
    const said = [...(note?.message ?? '').matchAll(/([\d.]+) µm rms, Strehl ratio ([\d.]+)/g)]
    expect(said).toHaveLength(2)
    for (const [i, [, rms, strehl]] of said.entries()) {
      expect((wavefronts[i]?.rmsWaves ?? 0) * 1.6537).toBeCloseTo(Number(rms), 2)
      expect(wavefronts[i]?.strehl).toBeCloseTo(Number(strehl), 2)
    }
  })

  test('spots lie about the axis, wider ones on wider rings', () => {
    const mean = spots.xUm.reduce((sum, x) => sum + x, 0) / spots.xUm.length
    expect(Math.abs(mean)).toBeLessThan(1e-6)
    expect(spots.xUm.length).toBe(1 + 6 * 21)
  })
})

test('a displaced lens carries the spots to where paraxial optics images the axis', () => {
  const { spots, wavefronts } = picturesOf(projectOf(4))
  const joint = evaluateCandidate(projectOf(4), 'relay').joints.at(-1)?.joint
  const inner = spots.radii.indexOf(0)
  expect(spots.xUm[inner]).toBeCloseTo(
    (joint?.offsetXUm ?? 0) + (joint?.gapUm ?? 0) * (joint?.tiltXRad ?? 0),
    1,
  )
  expect(spots.yUm[inner]).toBeCloseTo(0, 9)
  // Coma: the wavefront of lens 2 is no longer the same on both sides of its x axis, but still of its y axis.
  const { side, errorWaves } = wavefronts[1] ?? { side: 1, errorWaves: new Float64Array(1) }
  const at = (i: number, j: number) => errorWaves[j * side + i] ?? Number.NaN
  const middle = (side - 1) / 2
  expect(Math.abs(at(middle + 6, middle) - at(middle - 6, middle))).toBeGreaterThan(1e-3)
  expect(at(middle, middle + 6)).toBeCloseTo(at(middle, middle - 6), 9)
})

test('the figures say what the pictures hold', () => {
  const { wavefronts, spots } = picturesOf(projectOf(4))
  const [first] = wavefronts
  if (first === undefined) throw new Error('a wavefront')
  const wave = wavefrontFigure('w', first, 'the fibre-side mode')
  expect(wave.sentence).toContain(`Strehl ratio ${first.strehl.toFixed(3)}`)
  expect(wave.table.rows).toHaveLength(first.side ** 2)
  const spot = spotFigure('s', spots)
  expect(spot.table.rows).toHaveLength(spots.xUm.length)
  const drawn =
    spot.picture.panes[0]?.series.flatMap((each) => (each.kind === 'points' ? [each.x.length] : [])) ?? []
  expect(drawn.reduce((sum, count) => sum + count, 0)).toBe(spots.xUm.length)
})
