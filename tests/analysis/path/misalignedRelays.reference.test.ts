// Single misalignments of two-lens relays of conics, spheres and silicon. Outside values: rays through the moved lenses and plane waves between
// them (reference/data/recipes/relay_tolerances.py --singles).

import { describe, expect, test } from 'vitest'
import { relayLossOf } from '../../../src/analysis/field/relayLoss'
import { type CompiledCandidate, compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { quantityOf } from '../../../src/model/quantity/quantity'
import reference from '../../reference/data/misaligned-relays.json'
import { designOf } from '../support/toleranceRelays'

type Row = (typeof reference.rows)[number]

const NONE = {
  ...{ offsetUm: 0, tiltDeg: 0, frontUm: 0, backUm: 0 },
  ...{ lens1Um: 0, lens1Deg: 0, lens2Um: 0, lens2Deg: 0 },
}

/** The row's design with its quantities, `lens1 tiltX` or `tiltX` of the fibre, entered so much further, um or rad. */
function moved(row: Row, moves: Readonly<Record<string, number>>): CompiledCandidate {
  const project = designOf({ ...row, plusMinus: NONE })
  const relay = project.candidates.find(({ id }) => id === 'relay')?.chain[1]
  if (relay?.kind !== 'relay') throw new Error('a relay')
  const [frontUm = 0, backUm = 0] = row.gapsUm
  for (const [name, by] of Object.entries(moves)) {
    const [part = '', axis = part] = name.split(' ')
    const owner = part === 'lens1' ? relay.lens1 : part === 'lens2' ? relay.lens2 : relay
    const nominal = axis === 'frontGap' ? frontUm : axis === 'backGap' ? backUm : 0
    const value = axis.startsWith('tilt')
      ? quantityOf((by * 180) / Math.PI, 'deg')
      : quantityOf(nominal + by, 'um')
    Object.assign(owner, { [axis]: value })
  }
  const compiled = compileCandidate(project, 'relay')
  if (!compiled.ok) throw new Error('not computed')
  return compiled.value
}

const lossDb = ({ lossDb: of, nominal }: CompiledCandidate) => of(nominal)

/** A chip that turns about its facet: fibre and lenses turn against it. */
function chipTurnedDb({ joins, nominal }: CompiledCandidate, tiltRad: number): number {
  const join = joins.find(({ relayFields }) => relayFields !== undefined)
  const fields = join?.relayFields?.()
  const joint = join?.view?.(nominal).joint
  if (fields === null || fields === undefined || joint === undefined) throw new Error('a relay')
  const loss = relayLossOf(fields, joint)
  const turned = { ...joint, tiltXRad: tiltRad, offsetXUm: joint.offsetXUm - joint.gapUm * tiltRad }
  return loss(turned) - loss(joint)
}

describe.each(reference.rows)('conics of $lens1.conic and $lens2.conic, index $lens2.index', (row) => {
  const still = moved(row, {})
  test.each(row.cases)('$moved by $by adds $addedDb dB', ({ moved: what, by, addedDb }) => {
    const [part, axis = ''] = what.split(' ')
    const against = { [axis]: -by, [`lens1 ${axis}`]: -by, [`lens2 ${axis}`]: -by }
    const added = (moves: Readonly<Record<string, number>>) => lossDb(moved(row, moves)) - lossDb(still)
    const found = what.endsWith('Gap')
      ? (added({ [what]: by }) + added({ [what]: -by })) / 2
      : part !== 'chip'
        ? added({ [what]: by })
        : axis.startsWith('tilt')
          ? chipTurnedDb(still, by)
          : added(against)
    // In the glass the recipe's rays do not follow the spread of a mode, which matters along the light.
    const share = what.endsWith('Gap') ? 0.03 : 0.012
    expect(Math.abs(found - addedDb), `${found}`).toBeLessThan(0.001 + share * addedDb)
  })
})
