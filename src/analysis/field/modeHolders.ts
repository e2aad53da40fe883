// Everything in a project that may be said to have the mode of a cross-section: the facets, then both ends of every SSC chip.

import { CHIP_SIDES, END_FIELDS, endName } from '../../model/parts/chipEnds'
import type { Project } from '../../model/schema/project'
import type { ModeHolder } from './portShape'

type HolderLists = Pick<Project, 'facets' | 'converters'>

interface NamedHolder {
  readonly name: string
  readonly holder: ModeHolder
}

/** In an order that only the lists decide. Ends known by their diameters alone are omitted. */
export function modeHolders({ facets, converters }: HolderLists): readonly NamedHolder[] {
  const ends = converters.flatMap((each): readonly NamedHolder[] =>
    each.kind !== 'taper chip'
      ? []
      : CHIP_SIDES.flatMap((side) => {
          const holder = each[END_FIELDS[side].end]
          return holder === undefined ? [] : [{ name: endName(each, side), holder }]
        }),
  )
  return [...facets.map((facet) => ({ name: facet.name, holder: facet })), ...ends]
}

/** The lists with other holders in the places of theirs; a list in which nothing has changed stays the same object. */
export function withHolders(
  { facets, converters }: HolderLists,
  change: <H extends ModeHolder>(holder: H, name: string) => H,
): HolderLists {
  const changedFacets = facets.map((facet) => change(facet, facet.name))
  const changedConverters = converters.map((each) => {
    if (each.kind !== 'taper chip') return each
    const { inputEnd, outputEnd } = each
    const ends = {
      ...(inputEnd && { inputEnd: change(inputEnd, endName(each, 'input')) }),
      ...(outputEnd && { outputEnd: change(outputEnd, endName(each, 'output')) }),
    }
    return ends.inputEnd === inputEnd && ends.outputEnd === outputEnd ? each : { ...each, ...ends }
  })
  return {
    facets: sameOr(facets, changedFacets),
    converters: sameOr(converters, changedConverters),
  }
}

const sameOr = <T>(before: T[], after: T[]): T[] =>
  after.every((each, at) => each === before[at]) ? before : after
