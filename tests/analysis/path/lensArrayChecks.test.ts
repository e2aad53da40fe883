// Apertures of several channels side by side: into the pitch, or over the whole row.

import { expect, test } from 'vitest'
import { deviceRowFault, lensPitchFault } from '../../../src/analysis/path/relay/lensArrayChecks'
import { newIsolator } from '../../../src/model/designs/newElements'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { familiesProject, thinLensEntry } from '../support/families'

function projectOf(channels: number) {
  const project = familiesProject()
  project.requirements.channels = channels
  project.requirements.pitch = quantityOf(250, 'um')
  return project
}

test('a device spans the row of four channels, 750 µm, or fits into their pitch of 250 µm', () => {
  const fault = (apertureUm: number, channels = 4) =>
    deviceRowFault(projectOf(channels), { ...newIsolator(), clearAperture: quantityOf(apertureUm, 'um') })
  for (const fitting of [250, 100, 751, 2000]) expect(fault(fitting), String(fitting)).toBeNull()
  for (const wrong of [251, 500, 750]) {
    expect(fault(wrong)).toContain(
      `its clear aperture of ${wrong} µm neither spans the row of 4 channels, 750 µm, nor fits into their pitch of 250 µm.`,
    )
  }
  expect(fault(500, 1)).toBeNull()
})

test('a lens fits into its own pitch, or into that of the chip where it states none', () => {
  const fault = (apertureUm: number, pitchUm?: number, channels = 4) =>
    lensPitchFault(projectOf(channels), {
      ...thinLensEntry('lens', 500),
      clearAperture: quantityOf(apertureUm, 'um'),
      ...(pitchUm !== undefined && { pitch: quantityOf(pitchUm, 'um') }),
    })
  expect(fault(250)).toBeNull()
  expect(fault(251)).toMatch(
    /4 single lenses do not fit side by side.*251 µm is wider than the chip's pitch of 250 µm/,
  )
  expect(fault(260, 260)).toBeNull()
  expect(fault(261, 260)).toMatch(
    /neighbouring lenses of the array would overlap.*261 µm is wider than the pitch of 260 µm/,
  )
  expect(fault(500, undefined, 1)).toBeNull()
})
