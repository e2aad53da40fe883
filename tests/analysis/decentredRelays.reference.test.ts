// Relays whose fibre and lenses are decentred. Outside values: three-dimensional ray vectors, Hankel integrals and angular spectra
// (reference/data/recipes/decentred_relays.py).

import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { evaluateCandidate } from '../../src/analysis/index'
import { realRelayProject, relays, um } from './support/realRelays'

const { cases } = JSON.parse(
  readFileSync(new URL('../reference/data/decentred-relays.json', import.meta.url), 'utf8'),
) as {
  cases: readonly {
    row: number
    guideUm: readonly [number, number]
    lens1Um: readonly [number, number]
    lens2Um: readonly [number, number]
    lossDb: number
  }[]
}

const JOINT = new Set(['mode mismatch', 'gap', 'lateral offset', 'tilt', 'roll', 'combined', 'aberration'])

test.each(cases.map((each, i) => ({ i, ...each })))(
  'case $i, relay $row with the fibre at $guideUm, is met to 0.15 dB',
  ({ row: at, guideUm, lens1Um, lens2Um, lossDb }) => {
    const row = relays[at]
    if (row === undefined) throw new Error('a row')
    const [frontGapUm, backGapUm] = row.bothRefocusedUm
    const project = realRelayProject({ ...row, frontGapUm, backGapUm })
    const relay = project.candidates.find(({ id }) => id === 'relay')?.chain[1]
    if (relay?.kind !== 'relay') throw new Error('a relay')
    for (const [slot, [x, y]] of [
      [relay, guideUm],
      [relay.lens1, lens1Um],
      [relay.lens2, lens2Um],
    ] as const) {
      slot.offsetX = um(x)
      slot.offsetY = um(y)
    }
    const found = evaluateCandidate(project, 'relay')
      .lines.filter((line) => line.elementId === 'relay' && JOINT.has(line.kind))
      .reduce((sum, line) => sum + line.lossDb, 0)
    expect(Math.abs(found - lossDb), `${found}`).toBeLessThan(0.15)
  },
)
