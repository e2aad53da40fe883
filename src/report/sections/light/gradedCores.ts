// Cores without walls of the design's facet and of the ends of its SSC chips: diffused, by profile tables, or by an index map; with the index through the peak.

import { coreProfiles } from '../../../analysis/crossSection/coreProfile'
import { mapHostWarning } from '../../../analysis/crossSection/mapHost'
import { coreProfileFigure } from '../../../figures/field/coreProfile'
import { CHIP_SIDES, END_FIELDS, endName } from '../../../model/parts/chipEnds'
import { coreValue } from '../../../model/quantity/quantity'
import type { Candidate } from '../../../model/schema/candidate'
import type { CoreEntry, CrossSectionEntry } from '../../../model/schema/crossSection'
import type { Project } from '../../../model/schema/project'
import { InputError } from '../../../numerics/inputError'
import { nmOf } from '../../../numerics/numberText'
import { type Block, type Cell, table } from '../../document/blocks'
import { fixedCell } from '../../document/cells'
import { figureBlock } from '../../document/figureBlock'

/** Where the profile of a core comes from. */
function sourceOf({ profile = 'uniform', map, widthProfile, depthProfile }: CoreEntry): string {
  if (profile === 'index map')
    return map === undefined ? 'no map' : `${map.fileName}, ${map.nx} × ${map.ny} points`
  if (profile !== 'user profiles') return profile
  const points = (name: string, table: { readonly shares: readonly number[] } | undefined) =>
    `${name} ${table === undefined ? 'Gaussian' : `table of ${table.shares.length} points`}`
  return `${points('width', widthProfile)}, ${points('depth', depthProfile)}`
}

interface PathSection {
  /** Empty for the facet, whose cores need no other name. */
  readonly of: string
  readonly figureId: string
  readonly section: CrossSectionEntry
}

/** The cross-sections along the path, from the fibre on. */
function sectionsOf(project: Project, { chain }: Pick<Candidate, 'chain'>): readonly PathSection[] {
  return chain.flatMap((element): readonly PathSection[] => {
    if (element.kind === 'facet') {
      const section = project.facets.find(({ id }) => id === element.facetId)?.crossSection
      return section === undefined ? [] : [{ of: '', figureId: 'core', section }]
    }
    if (element.kind !== 'taper chip') return []
    const chip = project.converters.find(({ id }) => id === element.converterId)
    if (chip?.kind !== 'taper chip') return []
    return CHIP_SIDES.flatMap((side) => {
      const section = chip[END_FIELDS[side].end]?.crossSection
      const of = endName(chip, side)
      return section === undefined ? [] : [{ of, figureId: `core-${element.id}-${side}`, section }]
    })
  })
}

export function gradedCores(project: Project, candidate: Pick<Candidate, 'chain'>): readonly Block[] {
  const wavelengthUm = coreValue(project.requirements.wavelength, 'wavelength')
  const found = sectionsOf(project, candidate).flatMap(({ of, figureId, section }) =>
    section.cores.flatMap((core) => {
      try {
        const profiles = coreProfiles(section, core.id, wavelengthUm)
        const name = of === '' ? core.name : `${of}: ${core.name}`
        return profiles === null ? [] : [{ core, name, figureId: `${figureId}-${core.id}`, profiles }]
      } catch (error) {
        if (error instanceof InputError) return []
        throw error
      }
    }),
  )
  if (found.length === 0) return []
  const rows = found.map(({ core, name, profiles }): readonly Cell[] => [
    name,
    sourceOf(core),
    fixedCell(coreValue(core.width, 'guideSize'), 2),
    fixedCell(coreValue(core.height, 'guideSize'), 2),
    fixedCell(profiles.peakIndex, 5),
    fixedCell(profiles.peakIndex - profiles.hostIndex, 5),
    core.stepOverWavelength === undefined
      ? (mapHostWarning(core, profiles, wavelengthUm) ?? '')
      : `step entered at ${core.stepOverWavelength.wavelengthsUm.map((um) => nmOf(um)).join(', ')} nm`,
  ])
  return [
    table(
      `Graded-index cores at ${nmOf(wavelengthUm)} nm`,
      [
        'Core',
        'Index profile',
        { label: 'Full width at 1/e', unit: 'µm' },
        { label: 'Height at 1/e or diffusion depth', unit: 'µm' },
        'Peak index',
        'Index step',
        'Note',
      ],
      rows,
    ),
    ...found.map(({ name, figureId, profiles }) => figureBlock(coreProfileFigure(figureId, name, profiles))),
  ]
}
