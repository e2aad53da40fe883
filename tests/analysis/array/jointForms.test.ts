// The roll that the outer channels of a row tolerate at each joint, against the closed form of two matched waists.

import { expect, test } from 'vitest'
import { jointForms } from '../../../src/analysis/array/block'
import { rollForLossRad } from '../../../src/analysis/array/blockGeometry'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Project } from '../../../src/model/schema/project'

/** The SSC chip of the demo between waists that touch: MFDs along y in um, fibre, input, output, facet. */
function project([fibre, input, output, facet]: readonly [number, number, number, number]): Project {
  const made = demoProject()
  const um = (value: number) => quantityOf(value, 'um')
  for (const each of made.fibres) each.mode = { kind: 'mfd', mfdX: um(fibre), mfdY: um(fibre) }
  for (const each of made.converters) {
    if (each.kind !== 'taper chip') continue
    Object.assign(each, {
      inputMfdX: um(input),
      inputMfdY: um(input),
      outputMfdX: um(output),
      outputMfdY: um(output),
    })
  }
  for (const each of made.facets) each.mfdX = each.mfdY = um(facet)
  for (const each of made.candidates.flatMap(({ chain }) => chain)) if (each.kind === 'gap') each.gap = um(0)
  return made
}

test('both joints of an SSC chip have their roll, that of the narrow modes the tighter', () => {
  const forms = jointForms(project([10, 10, 3.4, 3]), 'ssc-chip')
  expect(forms).toHaveLength(2)
  const pairs = [
    [10, 10],
    [3.4, 3],
  ] as const
  for (const [i, [one, other]] of pairs.entries()) {
    // Lateral offset d of two waists w1, w2: loss 4.3429 * 2 d^2 / (w1^2 + w2^2) dB (W. B. Joyce and B. C. DeLoach, Appl. Opt. 23 (1984) 4187).
    const offsetUm = Math.sqrt((0.5 * ((one / 2) ** 2 + (other / 2) ** 2)) / (2 * 4.342945))
    const rollRad = rollForLossRad(forms[i]!.form, 8, 50, 0.5)
    expect((rollRad ?? 0) / (offsetUm / (3.5 * 50))).toBeCloseTo(1, 2)
  }
})
