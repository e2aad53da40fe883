// How far a chip may go behind two real lenses. Outside values: rays through the lenses and plane waves between them
// (reference/data/recipes/relay_tolerances.py --windows).

import { describe, expect, test } from 'vitest'
import { fieldWindows } from '../../../src/analysis/field/fieldWindows'
import { compileCandidate } from '../../../src/analysis/path/compileCandidate'
import { WINDOW_STEPS_DB } from '../../../src/analysis/tolerance/toleranceCurve'
import { viewWindows } from '../../../src/analysis/tolerance/viewWindows'
import reference from '../../reference/data/relay-windows.json'
import { designOf } from '../support/toleranceRelays'
import '../../support/fitsHere'

type Row = (typeof reference.rows)[number]
type Sides = Readonly<Record<'below' | 'above', readonly (number | null)[]>>

const NONE = {
  ...{ offsetUm: 0, tiltDeg: 0, frontUm: 0, backUm: 0 },
  ...{ lens1Um: 0, lens1Deg: 0, lens2Um: 0, lens2Deg: 0 },
}

function windowsOf(row: Row) {
  const compiled = compileCandidate(designOf({ ...row, plusMinus: NONE }), 'relay')
  if (!compiled.ok) throw new Error('not computed')
  const { joins, nominal } = compiled.value
  const join = joins.find(({ relayFields }) => relayFields !== undefined)
  const [view, lenses] = [join?.view?.(nominal), join?.relayFields?.()]
  if (view === undefined || lenses == null) throw new Error('real lenses')
  const real = fieldWindows({ ...view, lenses })
  if (real === null || real === 'pending') throw new Error('no windows')
  return { real, paraxial: viewWindows(view) }
}

/** Below and above of each step, and what the outside has there; the farthest ray is lost at some. */
function pairs(windows: ReturnType<typeof viewWindows>, axis: string, outside: Sides) {
  const marks = windows.find((each) => each.axis === axis)?.marks ?? []
  expect(marks.map(({ excessDb }) => excessDb)).toEqual([...WINDOW_STEPS_DB])
  return marks.flatMap(({ below, above }, i) =>
    [[below, outside.below[i]] as const, [above, outside.above[i]] as const].flatMap(([found, said]) =>
      typeof said === 'number' ? [[found ?? Number.NaN, said] as const] : [],
    ),
  )
}

describe.each(reference.rows)(
  'behind lenses of index $lens1.index and $lens2.index, conics $lens1.conic and $lens2.conic',
  (row) => {
    const { real, paraxial } = windowsOf(row)
    const most = (of: typeof real, axis: string, outside: Sides, scale: (said: number) => number) =>
      Math.max(...pairs(of, axis, outside).map(([found, said]) => Math.abs(found - said) / scale(said)))

    test('across the light within 1 %, about the facet within 3 %', () => {
      const { offsetX, tiltX } = row.windows
      const share = (said: number) => said
      expect(most(real, 'offsetXUm', offsetX, share)).toBeLessThan(0.0105)
      expect(most(real, 'tiltXRad', tiltX, share)).toBeLessThan(0.031)
    })

    test('along the light within 0.5 µm: in the glass, rays of the recipe do not follow the spread of a mode', () => {
      expect(most(real, 'gapUm', row.windows.gap, () => 1)).toBeLessThan(0.5)
    })

    // The first is corrected for its spheres, and the paraxial image has its windows across.
    test('the paraxial image has not', () => {
      expect(most(paraxial, 'gapUm', row.windows.gap, () => 1)).toBeGreaterThan(2)
      if (row.lens1.conic === 0) {
        expect(most(paraxial, 'offsetXUm', row.windows.offsetX, (said) => said)).toBeGreaterThan(0.1)
        expect(most(paraxial, 'tiltXRad', row.windows.tiltX, (said) => said)).toBeGreaterThan(0.08)
      }
    })
  },
)
