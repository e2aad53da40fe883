// The few numbers that a job starts with. Everything else is proposed from them and can be changed later.

import { CATALOGUE } from '../../model/catalogue/catalogue'
import { newCrossSection } from '../../model/parts/newCrossSection'
import { emptyProject } from '../../model/project/emptyProject'
import { leadingLoss } from '../../model/project/lossCriteria'
import { coreValue, type Quantity, quantityOf } from '../../model/quantity/quantity'
import type { CrossSectionEntry } from '../../model/schema/crossSection'
import type { FacetEntry, FibreEntry } from '../../model/schema/parts'
import type { Requirements } from '../../model/schema/requirements'
import type { LightDirection, LossBasis } from '../../model/words/requirements'
import { plainText, rounded } from '../../numerics/numberText'

/** A fibre to start from, and the wavelengths at which it carries one mode without bending away, nm. */
interface FibreChoice {
  readonly id: string
  readonly label: string
  readonly bandNm: readonly [from: number, to: number]
}

export const FIBRE_CHOICES: readonly FibreChoice[] = [
  {
    id: 'fibre-core-standard',
    label: 'Standard single-mode',
    bandNm: [1260, 1700],
  },
  {
    id: 'fibre-core-pm',
    label: 'Polarisation-maintaining (PM)',
    bandNm: [1300, 1700],
  },
  {
    id: 'fibre-core-980',
    label: 'Single-mode, 930 to 1260 nm',
    bandNm: [930, 1260],
  },
  {
    id: 'fibre-core-780',
    label: 'Single-mode, 740 to 930 nm',
    bandNm: [740, 930],
  },
]

/** Where the facet's usual numbers come from: catalogue facets, and the wider mode that a taper of the platform can show. */
interface Platform {
  readonly id: string
  readonly label: string
  readonly widerIds: readonly string[]
  /** Present where a buried core of the platform can be solved for its mode. */
  readonly core?: 'silicon nitride' | 'silicon'
}

export const PLATFORMS: readonly Platform[] = [
  {
    id: 'facet-nitride',
    label: 'Silicon nitride',
    widerIds: ['facet-nitride-wide'],
    core: 'silicon nitride',
  },
  {
    id: 'facet-silicon',
    label: 'Silicon',
    widerIds: ['facet-silicon-wide'],
    core: 'silicon',
  },
  { id: 'facet-niobate', label: 'Thin-film lithium niobate', widerIds: [] },
  { id: 'facet-iii-v', label: 'III-V', widerIds: [] },
  { id: 'facet-silica', label: 'Planar silica', widerIds: [] },
]

export interface Brief {
  readonly name: string
  readonly wavelength: Quantity
  /** One of FIBRE_CHOICES; a fibre of another mode is known by `fibreMfd`. */
  readonly fibreId: string
  readonly fibreMfd: Quantity | null
  /** One of PLATFORMS. */
  readonly platformId: string
  /** Stated diameters of the facet mode, unless its guide is given. */
  readonly mfdX: Quantity
  readonly mfdY: Quantity
  /** The core at the facet, from which the mode is solved; null where the diameters are stated. */
  readonly core: { readonly width: Quantity; readonly height: Quantity } | null
  readonly lossLimit: Quantity
  readonly lossBasis: LossBasis
  readonly channels: number
  readonly pitch: Quantity
  readonly direction: LightDirection
  /** Further requirements, where more is known than a brief asks for. */
  readonly further?: Partial<Requirements>
}

/** Mode of the facet's guide by the mode solver, best-fit Gaussian. */
export interface SolvedFacet {
  readonly mfdXUm: number
  readonly mfdYUm: number
  readonly effectiveIndex: number
}

function catalogueFacet(platformId: string): FacetEntry {
  const found = CATALOGUE.facets.find(({ id }) => id === platformId) ?? CATALOGUE.facets[0]
  if (found === undefined) throw new Error('the catalogue has no facet')
  return structuredClone(found)
}

export const platformOf = (platformId: string): Platform | undefined =>
  PLATFORMS.find(({ id }) => id === platformId)

/** Usual diameters of the platform's facet. */
export function usualMode(platformId: string): Pick<Brief, 'mfdX' | 'mfdY'> {
  const { mfdX, mfdY } = catalogueFacet(platformId)
  return { mfdX, mfdY }
}

/** A telecom job: standard fibre at 1550 nm to a silicon-nitride facet. */
export function defaultBrief(): Brief {
  const { requirements } = emptyProject()
  return {
    name: 'Untitled interface',
    wavelength: requirements.wavelength,
    fibreId: 'fibre-core-standard',
    fibreMfd: null,
    platformId: 'facet-nitride',
    ...usualMode('facet-nitride'),
    core: null,
    lossLimit: leadingLoss(requirements).limit,
    lossBasis: leadingLoss(requirements).basis,
    channels: requirements.channels,
    pitch: requirements.pitch,
    direction: requirements.direction,
  }
}

/** The first fibre that carries one mode at the wavelength; undefined where none of them does. */
export function fibreFor(wavelengthUm: number): FibreChoice | undefined {
  const nm = 1000 * wavelengthUm
  return FIBRE_CHOICES.find(({ bandNm: [from, to] }) => nm >= from && nm <= to)
}

/** Why the fibre does not suit the wavelength, as a sentence; null where it does. */
export function fibreComplaint({ fibreId, fibreMfd, wavelength }: Brief): string | null {
  if (fibreMfd !== null) return null
  const nm = 1000 * coreValue(wavelength, 'wavelength')
  const choice = FIBRE_CHOICES.find(({ id }) => id === fibreId)
  if (choice === undefined) return `Fibre: "${fibreId}" is not one of the available fibres.`
  const [from, to] = choice.bandNm
  if (nm >= from && nm <= to) return null
  const better = fibreFor(nm / 1000)
  const help = better === undefined ? 'Enter its mode-field diameter instead.' : `Use "${better.label}".`
  return `Fibre: "${choice.label}" is single-mode from ${from} to ${to} nm; the wavelength is ${plainText(nm, 6)} nm. ${help}`
}

export function fibreOf(brief: Brief): FibreEntry {
  const found = CATALOGUE.fibres.find(({ id }) => id === brief.fibreId) ?? CATALOGUE.fibres[0]
  if (found === undefined) throw new Error('the catalogue has no fibre')
  const fibre = structuredClone(found)
  if (brief.fibreMfd === null) return fibre
  return {
    ...fibre,
    id: 'fibre-stated',
    name: `${fibre.polarisationMaintaining ? 'PM' : 'Single-mode'} fibre, entered MFD`,
    mode: { kind: 'mfd', mfdX: structuredClone(brief.fibreMfd) },
  }
}

/** The cross-section of the stated core, buried in oxide; null where the mode is stated or the platform has no such core. */
export function sectionOf({ core, platformId }: Brief): CrossSectionEntry | null {
  const material = platformOf(platformId)?.core
  if (core === null || material === undefined) return null
  const section = newCrossSection(coreValue(core.width, 'guideSize'), coreValue(core.height, 'guideSize'))
  for (const each of section.cores) each.index = { kind: 'material', material }
  return section
}

/** The facet of the brief: the platform's usual one, with the stated or the solved mode. */
export function facetOf(brief: Brief, solved: SolvedFacet | null): FacetEntry {
  const usual = catalogueFacet(brief.platformId)
  const section = sectionOf(brief)
  if (section === null || solved === null || brief.core === null) {
    return {
      ...usual,
      mfdX: { ...usual.mfdX, ...brief.mfdX },
      mfdY: { ...usual.mfdY, ...brief.mfdY },
    }
  }
  const computed = (value: number, like: Quantity): Quantity => ({
    ...like,
    ...quantityOf(rounded(value, 5), like.unit, 'computed'),
    note: 'Solved from the cross-section, quasi-TE, best-fit Gaussian.',
  })
  return {
    ...usual,
    mfdX: computed(solved.mfdXUm, usual.mfdX),
    mfdY: computed(solved.mfdYUm, usual.mfdY),
    index: {
      kind: 'value',
      index: computed(solved.effectiveIndex, quantityOf(1, '1', 'computed', 0.02)),
    },
    tipWidth: brief.core.width,
    guideWidth: brief.core.width,
    guideHeight: brief.core.height,
    crossSection: section,
  }
}

/** The brief's numbers as requirements; what it does not ask keeps the values of a new project. */
export function requirementsOf(brief: Brief): Requirements {
  const { requirements } = emptyProject()
  const fibre = fibreOf(brief)
  return structuredClone<Requirements>({
    ...requirements,
    wavelength: brief.wavelength,
    direction: brief.direction,
    losses: [{ ...leadingLoss(requirements), limit: brief.lossLimit, basis: brief.lossBasis }],
    channels: brief.channels,
    pitch: brief.pitch,
    polarisation: fibre.polarisationMaintaining ? 'maintained' : 'any',
    ...brief.further,
  })
}
