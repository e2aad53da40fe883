// One candidate of every converter family, started from the first parts of the project that fit.

import { coreValue } from '../quantity/quantity'
import type { Candidate, ChainElement } from '../schema/candidate'
import type { ConverterEntry, ConverterKind, FacetEntry } from '../schema/parts'
import type { Project } from '../schema/project'
import {
  newDrift,
  newGapElement,
  newIsolator,
  newRelayElement,
  newSpliceElement,
  newStubElement,
  newTaperChipElement,
} from './newElements'

type Chain = readonly ChainElement[]

export interface CandidateTemplate {
  readonly id: string
  readonly label: string
  /** What the project still lacks, in words. */
  readonly missing: (project: Project) => readonly string[]
  readonly make: (project: Project, id: string) => Candidate
}

function firstConverter(project: Project, kind: ConverterKind): ConverterEntry | undefined {
  return project.converters.find((each) => each.kind === kind)
}

const gasId = (project: Project) => project.media.find((each) => each.state === 'gas')?.id
const fillingId = (project: Project) =>
  (project.media.find((each) => each.state === 'adhesive') ?? project.media[0])?.id ?? ''

const fibre = (project: Project, tipId?: string): ChainElement => ({
  kind: 'fibre',
  id: 'fibre',
  fibreId: project.fibres[0]?.id ?? '',
  ...(tipId === undefined ? {} : { tipId }),
})
const facet = (project: Project, facetId = project.facets[0]?.id ?? ''): ChainElement => ({
  kind: 'facet',
  id: 'facet',
  facetId,
})

/** The facet whose inverse taper widens the mode most: what a plain fibre looks into best. */
function widestTaperId({ facets }: Project): string | undefined {
  const area = (entry: FacetEntry) => coreValue(entry.mfdX, 'mfd') * coreValue(entry.mfdY, 'mfd')
  const tapered = facets.filter(({ tipWidth }) => tipWidth !== undefined)
  return tapered.toSorted((a, b) => area(b) - area(a))[0]?.id
}

type Need = readonly [words: string, has: (project: Project) => boolean]
const BASE: readonly Need[] = [
  ['a fibre', (project) => project.fibres.length > 0],
  ['a facet', (project) => project.facets.length > 0],
  ['a gap medium', (project) => project.media.length > 0],
]
const TIP: Need = ['a lensed tip', (project) => firstConverter(project, 'lensed tip') !== undefined]
const TAPER: Need = ['a taper chip', (project) => firstConverter(project, 'taper chip') !== undefined]
const LENS: Need = ['a lens', (project) => project.lenses.length > 0]
const INVERSE_TAPER: Need = [
  'the tip width of a taper on a facet',
  (project) => widestTaperId(project) !== undefined,
]
const GAS: Need = ['a gas among the media', (project) => gasId(project) !== undefined]

function template(
  id: string,
  label: string,
  needs: readonly Need[],
  chain: (project: Project) => Chain,
): CandidateTemplate {
  return {
    id,
    label,
    missing: (project) => [...BASE, ...needs].filter(([, has]) => !has(project)).map(([words]) => words),
    make: (project, candidateId) => ({
      id: candidateId,
      name: label,
      chain: [...chain(project)],
      userLines: [],
    }),
  }
}

/** The second fibre of the project where there is one: the bridge to the facet. */
const stubFibreId = (project: Project) => (project.fibres[1] ?? project.fibres[0])?.id ?? ''

export const CANDIDATE_TEMPLATES: readonly CandidateTemplate[] = [
  template('butt', 'Fibre at the facet', [], (project) => [
    fibre(project),
    newGapElement('gap', project.media[0]?.id ?? ''),
    facet(project),
  ]),
  template('on-chip', 'Fibre at an on-chip inverse taper', [INVERSE_TAPER], (project) => [
    fibre(project),
    newGapElement('gap', fillingId(project)),
    facet(project, widestTaperId(project)),
  ]),
  template('stub', 'Spliced stub at the facet', [], (project) => [
    fibre(project),
    newSpliceElement('splice'),
    newStubElement('stub', stubFibreId(project)),
    newGapElement('gap', fillingId(project)),
    facet(project),
  ]),
  template('tip', 'Lensed fibre', [TIP, GAS], (project) => [
    fibre(project, firstConverter(project, 'lensed tip')?.id),
    { ...newGapElement('gap', gasId(project) ?? ''), pinned: [], bondShift: newDrift() },
    facet(project),
  ]),
  template('relay', 'Two-lens relay with isolator', [LENS, GAS], (project) => {
    const lens1 = project.lenses[0]?.id ?? ''
    const lens2 = project.lenses[1]?.id ?? lens1
    return [
      fibre(project),
      { ...newRelayElement('relay', gasId(project) ?? '', lens1, lens2), device: newIsolator() },
      facet(project),
    ]
  }),
  template('taper-chip', 'Taper chip', [TAPER], (project) => [
    fibre(project),
    { ...newGapElement('gap-1', fillingId(project)), bondShift: newDrift() },
    newTaperChipElement('taper-chip', firstConverter(project, 'taper chip')?.id ?? ''),
    { ...newGapElement('gap-2', fillingId(project)), bondShift: newDrift() },
    facet(project),
  ]),
]
