import { expect, test } from 'vitest'
import { CATALOGUE } from '../../src/model/catalogue/catalogue'
import { PART_LISTS, type PartList } from '../../src/model/project/references'
import { quantityOf } from '../../src/model/quantity/quantity'
import { dimensionsText, partDimensions } from '../../src/report/partDimensions'

const textOf = <L extends PartList>(list: L, id: string) => {
  const part = CATALOGUE[list].find((each) => each.id === id)
  if (part === undefined) throw new Error(`no ${id}`)
  return dimensionsText(partDimensions(list, part))
}

test('a part is described by its numbers with their tolerances', () => {
  // ITU-T G.652.D attribute table (from memory): MFD 9.2 +- 0.4 um at 1310 nm, cladding 125 +- 0.7 um.
  expect(textOf('fibres', 'fibre-g652d-1310')).toBe('MFD 9.2 µm ± 0.4 µm, cladding 125 µm ± 0.7 µm')
  expect(textOf('converters', 'tip-3')).toBe('spot 3 µm ± 0.4 µm, working distance 12 µm ± 2 µm')
  expect(textOf('lenses', 'ball-300-sapphire')).toBe('diameter 300 µm ± 1 µm, clear aperture 240 µm')
})

test('a tip defined by its spot gives the range of its radius where it is stated', () => {
  const tip = CATALOGUE.converters.find((each) => each.id === 'tip-3')
  if (tip?.kind !== 'lensed tip' || tip.tip.kind !== 'spot') throw new Error('no spot tip')
  const ranged = { ...tip, tip: { ...tip.tip, radius: quantityOf(12, 'um', 'data sheet', 4) } }
  expect(dimensionsText(partDimensions('converters', ranged))).toBe(
    'spot 3 µm ± 0.4 µm, working distance 12 µm ± 2 µm, tip radius 12 µm ± 4 µm',
  )
})

test('every entry of the catalogue has numbers to show, but air', () => {
  const empty = PART_LISTS.flatMap((list) =>
    CATALOGUE[list].map(({ id }) => id).filter((id) => textOf(list, id) === ''),
  )
  expect(empty).toEqual(['air'])
})
