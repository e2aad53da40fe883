// Numbers of live pages that are known beforehand: the other end of a tolerance, what is left of the light, shared inputs with their source.

import { describe, expect, test } from 'vitest'
import { type CompiledCandidate, compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { RULES } from '../../../src/model/quantity/quantityRules'
import { spreadEnds } from '../../../src/model/quantity/spread'
import { unitFactor } from '../../../src/model/quantity/units'
import { efficiencyTerm } from '../../../src/report/workbook/jointFormulas'
import {
  atEnd,
  beyondFitAlone,
  flipped,
  slotOfNumber,
  tolerancedSlots,
} from '../../../src/report/workbook/liveInputs'
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

test('tolerances of shared inputs may be as wide as the whole range of their quantity, in its unit', () => {
  const chain = compiled()
  for (const variable of chain.variables.filter(({ spread }) => spread.halfWidth > 0)) {
    const page = whatIf(2, (each) => each === variable)
    page.shared(variable, quantityOf(3.4, variable.unit, 'data sheet', 0.1))
    const { limits } = page.page([])
    const { minCore, maxCore } = RULES[variable.rule]
    const size = unitFactor(RULES[variable.rule].dimension, variable.unit) ?? Number.NaN
    const all = [...limits.values()]
    expect(
      all.filter(({ message }) => /limit [−+]:/.test(message)).map(({ from, to }) => [from, to]),
    ).toEqual([1, 2].map(() => [0, expect.closeTo((maxCore - minCore) / size, 3)]))
    expect(all[0]).toMatchObject({
      from: expect.closeTo(minCore / size, 3),
      to: expect.closeTo(maxCore / size, 3),
    })
  }
})

describe('what single tolerances add beyond the fit of a joint', () => {
  // Loss 1 + 2 a² + 3 b about a = 0, b = 5; ± 0.5 and ± 0.1.
  const spread = (halfWidth: number) => ({
    kind: 'symmetric',
    halfWidth,
    distribution: 'uniform',
    low: -halfWidth,
    high: halfWidth,
  })
  const own = compiled().variables.find((each) => each.spread.halfWidth > 0)!
  const made = (fitMissesDb: number | undefined) =>
    ({
      joins: [{}, { fitMissesDb }],
      variables: [
        { ...own, path: ['chain', 0, 'a'], nominal: 0, spread: { ...own.spread, ...spread(0.5) } },
        { ...own, path: ['chain', 1, 'b'], nominal: 5, spread: { ...own.spread, ...spread(0.1) } },
      ],
      nominal: Float64Array.of(0, 5),
      lossDb: ([a = 0, b = 0]: Float64Array) => 1 + 2 * a * a + 3 * b,
    }) as unknown as CompiledCandidate
  const beyond = (a: number, b: number, misses: number | undefined = 0.2) =>
    beyondFitAlone(made(misses), {
      nominalDb: 16,
      rootSumSquare: {
        contributions: [
          { path: ['chain', 1, 'b'], addedDb: b },
          { path: ['chain', 0, 'a'], addedDb: a },
        ],
      },
    } as unknown as Parameters<typeof beyondFitAlone>[1])

  test('is the exact sum less what the fit gives, which adds nothing where it adds nothing', () => {
    // The fit gives 0.5 for a, at either end, and 0.3 for b, at its upper one.
    expect([...beyond(0.7, 0.25)]).toEqual([
      [1, expect.closeTo(0.25 - 0.3, 12)],
      [0, expect.closeTo(0.7 - 0.5, 12)],
    ])
    expect([...beyond(0, 0)]).toEqual([
      [1, expect.closeTo(-0.3, 12)],
      [0, expect.closeTo(-0.5, 12)],
    ])
    expect(
      beyondFitAlone(made(undefined), { nominalDb: 16, rootSumSquare: { contributions: [] } } as never).size,
    ).toBe(0)
  })

  test('is of tolerances only, and a number is a quantity where it follows that one alone', () => {
    const chain = made(0.2)
    expect(tolerancedSlots(chain)).toEqual([0, 1])
    const exact = {
      ...chain,
      variables: chain.variables.map((each, i) =>
        i === 0 ? { ...each, spread: { ...each.spread, halfWidth: 0 } } : each,
      ),
    } as CompiledCandidate
    expect(tolerancedSlots(exact)).toEqual([1])
    expect(slotOfNumber(chain, ([, b = 0]) => b)).toBe(1)
    expect(slotOfNumber(chain, ([a = 0]) => a)).toBe(0)
    expect(slotOfNumber(chain, ([, b = 0]) => 2 * b)).toBeNull()
    expect(slotOfNumber(chain, ([a = 0, b = 0]) => b + a)).toBeNull()
    expect(slotOfNumber(chain, () => 5)).toBeNull()
    expect(slotOfNumber(chain, ([, b = 0]) => Math.max(b, 5))).toBeNull()
  })
})
