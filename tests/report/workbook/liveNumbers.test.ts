// Numbers of live pages that are known beforehand: the other end of a tolerance, what is left of the light, shared inputs with their source.

import { describe, expect, test } from 'vitest'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { spreadEnds } from '../../../src/model/quantity/spread'
import { efficiencyTerm } from '../../../src/report/workbook/jointFormulas'
import { atEnd, flipped } from '../../../src/report/workbook/liveInputs'
import { literal } from '../../../src/report/workbook/term'
import { whatIf } from '../../../src/report/workbook/whatIfPage'
import { twoDesigns } from '../../support/twoDesigns'

const compiled = () => {
  const result = compileCandidate(twoDesigns(), 'cleaved-dry')
  if (!result.ok) throw new Error('no path')
  return result.value
}

test.each([
  [0, 1],
  [3.0103, 0.5],
  [10, 0.1],
])('%f dB leave %f of the light', (lossDb, share) => {
  expect(efficiencyTerm(literal(lossDb)).value).toBeCloseTo(share, 6)
})

describe('a tolerance in a scenario', () => {
  const chain = compiled()
  const slot = chain.variables.findIndex(({ spread }) => spread.halfWidth > 0)
  const [low, high] = spreadEnds(chain.variables[slot]!.spread)
  const nominal = chain.variables[slot]!.nominal

  test('is at its lower or its upper end, and all else as it was', () => {
    const at = (sign: -1 | 1) => atEnd(chain, chain.nominal, slot, sign)
    expect([at(-1)[slot], at(1)[slot]]).toEqual([nominal + low, nominal + high])
    expect(at(1).filter((value, i) => value !== chain.nominal[i])).toHaveLength(1)
    expect(at(1)).not.toBe(chain.nominal)
  })

  test('goes to its other end, from the lower one and from nominal to the upper', () => {
    const scenario = (sign?: -1 | 1) => ({
      title: '',
      values: chain.nominal,
      signs: new Map(sign === undefined ? [] : [[slot, sign]]),
    })
    expect(flipped(chain, scenario(1), slot)[slot]).toBe(nominal + low)
    expect(flipped(chain, scenario(-1), slot)[slot]).toBe(nominal + high)
    expect(flipped(chain, scenario(), slot)[slot]).toBe(nominal + high)
  })
})

test('a shared input has its value, unit and source, and is written once; what is not shared is not', () => {
  const chain = compiled()
  const variable = chain.variables.find(({ spread }) => spread.halfWidth > 0)!
  const page = whatIf(2, (each) => each === variable)
  const quantity = quantityOf(3.4, variable.unit, 'data sheet', 0.1)
  const cells = page.shared(variable, quantity)
  expect(cells?.value.value).toBe(3.4)
  expect(page.shared(variable, quantity)).toBe(cells)
  expect(page.shared(chain.variables.find((each) => each !== variable)!, quantity)).toBeNull()
  const written = [...page.page([]).cells.values()].map(({ value }) => value)
  expect(written).toContain('data sheet')
  expect(written).toContain(variable.label)
})
