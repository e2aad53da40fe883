// The relays of the reference as projects, with parts as a user enters them.

import { readFileSync } from 'node:fs'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Project } from '../../../src/model/schema/project'
import { familiesProject, relayElement } from './families'

export const { relays } = JSON.parse(
  readFileSync(new URL('../../reference/data/real-relays.json', import.meta.url), 'utf8'),
) as {
  relays: readonly {
    lens1: Record<string, number | string>
    lens2: Record<string, number | string>
    nearMfdUm: number
    farMfdUm: readonly [number, number]
    stretchUm: number
    device: { lengthUm: number; index: number }
    frontGapUm: number
    backGapUm: number
    realDb: number
    realBothRefocusedDb: number
    bothRefocusedUm: readonly [number, number]
  }[]
}

export type RealRelayRow = (typeof relays)[number]

export const um = (value: number) => quantityOf(value, 'um')

/** The relay of the reference as a project; lenses are wide enough not to clip. */
export function realRelayProject(row: RealRelayRow): Project {
  const relay = relayElement({
    frontGap: um(row.frontGapUm),
    stretch: um(row.stretchUm),
    backGap: um(row.backGapUm),
    device: {
      name: 'plate',
      loss: quantityOf(0, 'dB'),
      length: um(row.device.lengthUm),
      index: quantityOf(row.device.index, '1'),
      clearAperture: um(4000),
    },
  })
  const project = structuredClone(familiesProject(relay))
  const candidate = project.candidates.find(({ id }) => id === 'relay')
  for (const [i, lens] of [row.lens1, row.lens2].entries()) {
    const entry = project.lenses[i]
    if (entry === undefined) throw new Error('two lenses')
    entry.glass = { kind: 'value', index: quantityOf(Number(lens.index), '1') }
    entry.clearAperture = um(4000)
    entry.shape =
      lens.kind === 'ball'
        ? { kind: 'ball', diameter: um(Number(lens.diameterUm)) }
        : {
            kind: 'plano-convex',
            radius: um(Number(lens.radiusUm)),
            thickness: um(Number(lens.thicknessUm)),
          }
  }
  const [fibre, , facet] = candidate?.chain ?? []
  const fibreEntry = project.fibres.find((each) => fibre?.kind === 'fibre' && each.id === fibre.fibreId)
  if (fibreEntry === undefined || facet?.kind !== 'facet') throw new Error('fibre and facet')
  fibreEntry.mode = { kind: 'mfd', mfdX: um(row.nearMfdUm) }
  const facetEntry = project.facets.find((each) => each.id === facet.facetId)
  if (facetEntry === undefined) throw new Error('facet')
  facetEntry.mfdX = um(row.farMfdUm[0])
  facetEntry.mfdY = um(row.farMfdUm[1])
  project.requirements.wavelength = quantityOf(1550, 'nm')
  return project
}
