// A relay's tilt window is one number: Design's table and Compare's row, both about the facet. The reference sums both
// Gaussian fields on a line across the facet; about lens 2 the lever of the back gap would make another number of it.

import { expect, test } from 'vitest'
import { chipWindow } from '../../../src/analysis/compare/chipWindows'
import { evaluateCandidate } from '../../../src/analysis/index'
import { axisWindow } from '../../../src/analysis/tolerance/toleranceCurve'
import { pivotText, viewWindows } from '../../../src/analysis/tolerance/viewWindows'
import type { GaussianJoint } from '../../../src/optics/index'
import { familiesProject } from '../support/families'

/** Excess loss of a tilt about the facet, dB, by the sum over x; the waist of the image is `z` in front of the facet. */
function tiltExcessDb(joint: GaussianJoint, tiltRad: number): number {
  const { wavelengthUm, index, emitterMfdXUm, receiverMfdXUm, waistXUm, gapUm } = joint
  const k = (2 * Math.PI * index) / wavelengthUm
  const [w0, w2, z] = [emitterMfdXUm / 2, receiverMfdXUm / 2, gapUm - waistXUm]
  const rayleigh = (k * w0 * w0) / 2
  const w = w0 * Math.hypot(1, z / rayleigh)
  const curvature = z / (z * z + rayleigh * rayleigh)
  const power = (tilt: number) => {
    let [re, im] = [0, 0]
    for (let x = -40; x <= 40; x += 0.01) {
      const amplitude = Math.exp(-(x * x) / (w * w) - (x * x) / (w2 * w2))
      const phase = k * (tilt * x - (curvature * x * x) / 2)
      re += amplitude * Math.cos(phase)
      im += amplitude * Math.sin(phase)
    }
    return re * re + im * im
  }
  return 10 * Math.log10(power(0) / power(tiltRad))
}

test('a tilt window of a relay is that of the image about the facet, in Design as in Compare', () => {
  const project = familiesProject()
  const relay = project.candidates.find(({ chain }) => chain.some(({ kind }) => kind === 'relay'))
  const view = evaluateCandidate(project, relay?.id ?? '').joints.at(-1)
  if (view === undefined) throw new Error('no relay')
  const design = viewWindows(view).find(({ axis }) => axis === 'tiltXRad')
  const mark = design?.marks.find(({ excessDb }) => excessDb === 1)
  const least = Math.min(mark?.below ?? 9, mark?.above ?? 9)
  expect(chipWindow(view.joint, 'tiltXRad')).toBe(least)
  expect(tiltExcessDb(view.joint, least)).toBeCloseTo(1, 3)
  expect(pivotText(view)).toContain('about the facet, as in Compare')
  const aboutLens2 = axisWindow(view.joint, 'tiltXRad').marks.find(({ excessDb }) => excessDb === 1)
  expect(aboutLens2?.above).toBeLessThan(least / 2)
})

test('a plain gap says that its tilts are about the end face of the fibre', () => {
  const project = familiesProject()
  const view = evaluateCandidate(project, 'cleaved-dry').joints[0]
  if (view === undefined) throw new Error('no gap')
  expect(viewWindows(view)[3]).toEqual(axisWindow(view.joint, 'tiltXRad'))
  expect(pivotText(view)).toContain('about the centre of its end face')
})
