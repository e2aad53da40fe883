// A core whose mode is solved follows each of its numbers, whatever was asked for before.

import { expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'

function cored(coreDiameterUm: number, na: number, wavelengthNm: number) {
  const project = demoProject()
  project.requirements.wavelength = quantityOf(wavelengthNm, 'nm')
  for (const fibre of project.fibres)
    fibre.mode = { kind: 'core', coreDiameter: quantityOf(coreDiameterUm, 'um'), na: quantityOf(na, '1') }
  return project
}

test.each([
  ['diameter', [8.6, 0.125, 1653.7]],
  ['aperture', [8.2, 0.13, 1653.7]],
  ['wavelength', [8.2, 0.125, 1600]],
] as const)(
  'one compiled path with another %s loses what a path compiled for it does',
  (_, [diameter, na, nm]) => {
    const result = compileCandidate(cored(8.2, 0.125, 1653.7), 'cleaved-dry')
    if (!result.ok) throw new Error('no path')
    const { lossDb, nominal, variables, slots } = result.value
    const before = lossDb(nominal)
    const v = Float64Array.from(nominal)
    const slotOf = (start: string) => variables.findIndex(({ label }) => label.startsWith(start))
    v[slotOf('core diameter')] = diameter
    v[slotOf('numerical aperture')] = na
    v[slots.wavelengthShift] = (nm - 1653.7) / 1000
    const after = lossDb(v)
    expect(Math.abs(after - before)).toBeGreaterThan(1e-4)
    const whole = evaluateCandidate(cored(diameter, na, nm), 'cleaved-dry').nominalDb
    // Distances and fits are those of the first path.
    expect(after).toBeCloseTo(whole, 6)
    expect(lossDb(nominal)).toBe(before)
  },
)
