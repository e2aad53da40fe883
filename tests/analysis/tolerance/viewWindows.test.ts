// A relay's tilt window is one number: Design's table and Compare's row, both about the facet. The reference sums both
// Gaussian fields on a line across the facet; about lens 2 the lever of the back gap would make another number of it.

import { expect, test } from 'vitest'
import { chipWindow } from '../../../src/analysis/compare/chipWindows'
import { evaluateCandidate } from '../../../src/analysis/index'
import { axisWindow } from '../../../src/analysis/tolerance/toleranceCurve'
import { pivotText, viewWindows } from '../../../src/analysis/tolerance/viewWindows'
import { familiesProject } from '../support/families'
import { tiltExcessDb } from '../support/tiltExcess'

test('a tilt window of a relay is that of the image about the facet, in Design as in Compare', () => {
  const project = familiesProject()
  const relay = project.candidates.find(({ chain }) => chain.some(({ kind }) => kind === 'relay'))
  const view = evaluateCandidate(project, relay?.id ?? '').joints.at(-1)
  if (view === undefined) throw new Error('no relay')
  const design = viewWindows(view).find(({ axis }) => axis === 'tiltXRad')
  const mark = design?.marks.find(({ excessDb }) => excessDb === 1)
  const least = Math.min(mark?.below ?? 9, mark?.above ?? 9)
  expect(chipWindow(view.joint, 'tiltXRad')?.distance).toBeCloseTo(least, 12)
  expect(tiltExcessDb(view.joint, least)).toBeCloseTo(1, 3)
  expect(pivotText(view)).toContain('tilts about the facet.')
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
