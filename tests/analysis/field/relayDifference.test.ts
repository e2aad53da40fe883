import { expect, test } from 'vitest'
import { RELAY_AXES } from '../../../src/analysis/field/fit/relayAxes'
import { differenceOn, relayDifference } from '../../../src/analysis/field/fit/relayDifference'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { ringPupil } from '../../../src/optics/index'
import { familiesProject, relayElement } from '../support/families'

/** Lenses that the beam fills: the aberration is above 4 dB, and its outermost rays miss the second sphere. */
function filledLenses() {
  const project = familiesProject(
    relayElement({
      ...{ lens1Id: 'plano-1', lens2Id: 'plano-2' },
      ...{ frontGap: quantityOf(810, 'um'), stretch: quantityOf(6, 'mm'), backGap: quantityOf(245, 'um') },
    }),
  )
  const compiled = compileCandidate(project, 'relay')
  const fields = compiled.ok
    ? compiled.value.joins.flatMap((join) => join.relayFields?.() ?? [])[0]
    : undefined
  if (fields === undefined) throw new Error('a relay with real lenses')
  return fields
}

test('what moves add to a relay of lenses that the beam fills is that of many more rays', () => {
  const { sides, at } = filledLenses()
  const [of, byMany] = [relayDifference(sides), differenceOn(sides, ringPupil(70, 28, 3.2))]
  const moves = [
    { nearSlopeXRad: 0.057, farSlopeXRad: 0.19 },
    { nearXUm: -2, nearSlopeXRad: 0.038, farXUm: -0.6, farSlopeXRad: 0.13 },
    { nearSlopeYRad: 0.03, farSlopeYRad: 0.1 },
  ]
  for (const move of moves) {
    const moved = Float64Array.from(
      at,
      (value, i) => value + ((move as Record<string, number>)[RELAY_AXES[i] ?? ''] ?? 0),
    )
    const added = (by: typeof of) => by(moved).differenceDb - by(at).differenceDb
    expect(Math.abs(added(of) - added(byMany)), JSON.stringify(move)).toBeLessThan(0.05)
    expect(Math.abs(added(byMany))).toBeGreaterThan(0.2)
  }
})
