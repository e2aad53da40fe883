// What a spectrum holds constant because no dispersion is given, and what it extrapolates.

import type { Candidate, ChainElement } from '../../model/schema/candidate'
import type { IndexSource } from '../../model/schema/indexSource'
import type { ModeOverWavelength } from '../../model/schema/modeOverWavelength'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { nmOf } from '../../numerics/numberText'
import { coveredBand } from '../path/vector/mfdFactors'

interface Held {
  readonly modes: string[]
  readonly indices: string[]
  readonly others: string[]
  readonly beyond: string[]
}

function lawOf(
  held: Held,
  name: string,
  law: ModeOverWavelength | undefined,
  [from, to]: readonly [number, number],
): void {
  if (law === undefined) {
    held.modes.push(name)
    return
  }
  const covered = coveredBand(law)
  if (covered !== null && (from < covered[0] || to > covered[1])) {
    held.beyond.push(
      `the mode of ${name}, known from ${nmOf(covered[0])} to ${nmOf(covered[1])} nm, is extrapolated linearly`,
    )
  }
}

function indexOf(held: Held, name: string, source: IndexSource): void {
  if (source.kind === 'value') held.indices.push(name)
}

function lookAt(held: Held, project: Project, element: ChainElement, band: readonly [number, number]): void {
  switch (element.kind) {
    case 'fibre':
    case 'stub': {
      const fibre = byId(project.fibres, element.fibreId)
      if (fibre === undefined) return
      if (fibre.mode.kind === 'mfd') lawOf(held, fibre.name, fibre.mode.overWavelength, band)
      indexOf(held, fibre.name, fibre.index)
      const tip = byId(project.converters, element.tipId)
      if (tip?.kind === 'lensed tip' && tip.tip.kind === 'spot') held.others.push(`the spot of ${tip.name}`)
      return
    }
    case 'facet': {
      const facet = byId(project.facets, element.facetId)
      if (facet === undefined) return
      lawOf(held, facet.name, facet.overWavelength, band)
      indexOf(held, facet.name, facet.index)
      return
    }
    case 'taper chip': {
      const chip = byId(project.converters, element.converterId)
      if (chip?.kind !== 'taper chip') return
      held.modes.push(chip.name)
      indexOf(held, chip.name, chip.index)
      return
    }
    case 'gap':
    case 'relay': {
      const medium = byId(project.media, element.mediumId)
      if (medium !== undefined) indexOf(held, medium.name, medium.index)
      for (const coating of [element.nearCoating, element.farCoating]) {
        if (coating?.kind === 'reflectance') held.others.push('a coating given by its reflectance')
      }
      if (element.kind === 'gap') return
      for (const lensId of [element.lens1Id, element.lens2Id]) {
        const lens = byId(project.lenses, lensId)
        if (lens === undefined) continue
        indexOf(held, lens.name, lens.glass)
        if (lens.shape.kind === 'thin') held.others.push(`the focal length of ${lens.name}`)
        if (lens.films === undefined && lens.coating !== undefined) {
          held.others.push(`the coating of ${lens.name}`)
        }
      }
      return
    }
    case 'splice':
      return
  }
}

/** Names may hold commas themselves. */
const listed = (names: readonly string[]) => [...new Set(names)].join('; ')

/** Sentences, in the order of how much they may matter. */
export function dispersionNotes(
  project: Project,
  candidate: Candidate,
  bandUm: readonly [fromUm: number, toUm: number],
): readonly string[] {
  const held: Held = { modes: [], indices: [], others: [], beyond: [] }
  for (const element of candidate.chain) lookAt(held, project, element, bandUm)
  const sentence = (names: readonly string[], text: (list: string) => string) =>
    names.length === 0 ? [] : [text(listed(names))]
  return [
    ...sentence(held.beyond, (list) => `Extrapolated: ${list}.`),
    ...sentence(
      held.modes,
      (list) =>
        `Modes given at one wavelength only, and held constant: ${list}. Add their wavelength dependence in Parts.`,
    ),
    ...sentence(held.indices, (list) => `Indices entered as a number, and held constant: ${list}.`),
    ...sentence(held.others, (list) => `Also held constant: ${list}.`),
    'Entered losses (tapers, splices, components, additional losses) are the same at every wavelength.',
  ]
}
