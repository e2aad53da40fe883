// What every family of designs starts from: the requirements, the fibre, the facet, and the parts to choose from.

import { CATALOGUE } from '../../model/catalogue/catalogue'
import type { PartLists } from '../../model/project/references'
import { coreValue } from '../../model/quantity/quantity'
import type { ChainElement } from '../../model/schema/candidate'
import type { FacetEntry, FibreEntry, MediumEntry } from '../../model/schema/parts'
import type { Project } from '../../model/schema/project'
import type { Requirements } from '../../model/schema/requirements'
import { byId } from '../../model/words/byId'
import { InputError } from '../../numerics/inputError'
import { refractiveIndex } from '../../optics/index'
import { facetSize, fibreSize, type ModeSize, mismatchDb } from './matching'

export interface Ground {
  readonly requirements: Requirements
  readonly fibre: FibreEntry
  readonly facet: FacetEntry
  /** Catalogue facets that a taper of the same platform can show instead. */
  readonly widerIds: readonly string[]
  /** Parts that the project has already. */
  readonly own: PartLists
}

/** The ground with what follows from it. */
export interface Site extends Ground {
  readonly wavelengthUm: number
  readonly fibreMode: ModeSize
  readonly facetMode: ModeSize
  /** Loss of the plain fibre at the facet, dB: a converter must be better. */
  readonly plainDb: number
}

/** What is missing of a design is taken from the catalogue. */
export type Parts = Partial<PartLists>

export interface Draft {
  readonly chain: readonly ChainElement[]
  readonly parts: Parts
  /** What was chosen and why, as one sentence. */
  readonly choice: string
}

/** A draft, or the reason why the family does not apply. */
export type Attempt = Draft | { readonly reason: string }

/** Null where the fibre has no mode at the wavelength. */
export function siteOf(ground: Ground): Site | null {
  const wavelengthUm = coreValue(ground.requirements.wavelength, 'wavelength')
  const fibreMode = fibreSize(ground.fibre, wavelengthUm)
  if (fibreMode === null) return null
  const facetMode = facetSize(ground.facet)
  return {
    ...ground,
    wavelengthUm,
    fibreMode,
    facetMode,
    plainDb: mismatchDb(fibreMode, facetMode),
  }
}

/** Fibre and facet of the project's first design, else its first parts, else the catalogue's usual ones. */
export function groundOf(project: Project): Ground {
  const chain = project.candidates[0]?.chain ?? []
  const first = chain[0]?.kind === 'fibre' ? chain[0].fibreId : ''
  const last = chain.at(-1)
  const facetId = last?.kind === 'facet' ? last.facetId : ''
  const pick = <T extends { readonly id: string }>(own: readonly T[], id: string, usual: readonly T[]): T => {
    const found = byId(own, id) ?? own[0] ?? usual[0]
    if (found === undefined) throw new Error('the catalogue is empty')
    return found
  }
  const usualFibre = CATALOGUE.fibres.filter(({ id }) => id === 'fibre-core-standard')
  const usualFacet = CATALOGUE.facets.filter(({ id }) => id === 'facet-nitride')
  return {
    requirements: project.requirements,
    fibre: pick(project.fibres, first, usualFibre),
    facet: pick(project.facets, facetId, usualFacet),
    widerIds: CATALOGUE.facets.filter(({ tipWidth }) => tipWidth !== undefined).map(({ id }) => id),
    own: project,
  }
}

function indexOf({ index }: Pick<MediumEntry, 'index'>, wavelengthUm: number): number {
  if (index.kind === 'value') return coreValue(index.index, 'index')
  try {
    return refractiveIndex(index.material, wavelengthUm)
  } catch (error) {
    if (error instanceof InputError) return 1.45 // beyond the dispersion data, a nearby index is accurate enough for the choice
    throw error
  }
}

/** The medium of a state that reflects least between the two guides: the sum of both faces. */
export function mediumBetween(
  { own, wavelengthUm }: Site,
  state: MediumEntry['state'],
  near: Pick<MediumEntry, 'index'>,
  far: Pick<MediumEntry, 'index'>,
): { readonly medium: MediumEntry; readonly parts: Parts } {
  const reflectance = (a: number, b: number) => ((a - b) / (a + b)) ** 2
  const ends = [indexOf(near, wavelengthUm), indexOf(far, wavelengthUm)]
  const both = (medium: MediumEntry) =>
    ends.reduce((sum, end) => sum + reflectance(indexOf(medium, wavelengthUm), end), 0)
  const least = (media: readonly MediumEntry[]) =>
    media.filter((each) => each.state === state).toSorted((a, b) => both(a) - both(b))[0]
  const mine = least(own.media)
  const medium = mine ?? least(CATALOGUE.media)
  if (medium === undefined) throw new Error(`the catalogue has no ${state}`)
  return { medium, parts: mine === undefined ? { media: [medium] } : {} }
}
