// Simulated relays are read into records that are filled again: nothing of one assembly may reach the next, and the short way must
// say what the lines of the budget say.

import { expect, test } from 'vitest'
import { assemblyOf } from '../../../src/analysis/yield/assembly'
import { demoProject } from '../../../src/model/index'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { unitPoints } from '../../../src/numerics/random/unitPoints'

/** The demo's relay with angled faces, all three members aligned, in every axis or across only. */
function assembly(axes: readonly ('offsetX' | 'offsetY' | 'offsetZ' | 'tiltX' | 'tiltY')[]) {
  const project = demoProject()
  const relay = project.candidates
    .find(({ id }) => id === 'relay')
    ?.chain.find(({ kind }) => kind === 'relay')
  if (relay?.kind !== 'relay') throw new Error('the demo has a relay')
  relay.aligned = [...axes]
  relay.lens1.aligned = [...axes]
  relay.lens2.aligned = [...axes]
  relay.nearFaceAngle = quantityOf(8, 'deg')
  const result = assemblyOf(project, 'relay')
  if (!result.ok) throw new Error(result.issues.map(({ message }) => message).join())
  return result.value
}

test.each([{ axes: [] }, { axes: ['offsetX', 'offsetY', 'offsetZ', 'tiltX', 'tiltY'] }] as const)(
  'the loss of an assembly is the sum of its lines, whatever was looked at before: $axes',
  ({ axes }) => {
    const { compiled, draws, temperaturesC } = assembly(axes)
    expect(temperaturesC.length).toBeGreaterThan(1)
    const points = unitPoints('random', draws.slots.length, 5)
    const point = new Float64Array(draws.slots.length)
    const assemblies = Array.from({ length: 9 }, (_, i) => {
      points.point(i, point)
      const v = compiled.nominal.slice()
      draws.apply(point, v)
      v[compiled.slots.temperatureRise] = 20 * ((i % 3) - 1)
      return v
    })
    const losses = assemblies.map((v) => compiled.lossDb(v))
    expect(new Set(losses).size).toBe(losses.length)
    expect(assemblies.toReversed().map((v) => compiled.lossDb(v))).toEqual(losses.toReversed())
    for (const [i, v] of assemblies.entries()) {
      const sum = compiled.lines.reduce((total, line) => total + line.lossDb(v), 0)
      expect(losses[i]).toBeCloseTo(sum, 9)
    }
  },
)

test('a fibre-side face of another angle turns the beam, which a station that aligns the tilts turns back', () => {
  const rise = (axes: Parameters<typeof assembly>[0]) => {
    const { compiled } = assembly(axes)
    const joint = compiled.lines.filter(({ elementId, kind }) => elementId === 'relay' && kind !== 'fresnel')
    const at = (v: Float64Array) => joint.reduce((sum, line) => sum + line.lossDb(v), 0)
    const turned = compiled.nominal.slice()
    const face = compiled.variables.findIndex(({ path }) => path.at(-1) === 'nearFaceAngle')
    turned[face] = (compiled.nominal[face] ?? Number.NaN) + Math.PI / 180
    return at(turned) - at(compiled.nominal)
  }
  const left = rise([])
  const aligned = rise(['offsetX', 'offsetY', 'tiltX', 'tiltY'])
  expect(left).toBeGreaterThan(0.02)
  expect(Math.abs(aligned)).toBeLessThan(left / 5)
})
