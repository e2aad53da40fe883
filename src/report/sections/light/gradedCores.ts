// Cores without walls of the design's facet: diffused, by profile tables, or by an index map; with the index through the peak.

import { coreProfiles } from '../../../analysis/crossSection/coreProfile'
import { coreProfileFigure } from '../../../figures/field/coreProfile'
import { coreValue } from '../../../model/quantity/quantity'
import type { Candidate } from '../../../model/schema/candidate'
import type { CoreEntry } from '../../../model/schema/crossSection'
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

export function gradedCores(project: Project, { chain }: Pick<Candidate, 'chain'>): readonly Block[] {
  const last = chain.at(-1)
  const facet = last?.kind === 'facet' ? project.facets.find(({ id }) => id === last.facetId) : undefined
  const section = facet?.crossSection
  if (section === undefined) return []
  const wavelengthUm = coreValue(project.requirements.wavelength, 'wavelength')
  const found = section.cores.flatMap((core) => {
    try {
      const profiles = coreProfiles(section, core.id, wavelengthUm)
      return profiles === null ? [] : [{ core, profiles }]
    } catch (error) {
      if (error instanceof InputError) return []
      throw error
    }
  })
  if (found.length === 0) return []
  const rows = found.map(({ core, profiles }): readonly Cell[] => [
    core.name,
    sourceOf(core),
    fixedCell(coreValue(core.width, 'guideSize'), 2),
    fixedCell(coreValue(core.height, 'guideSize'), 2),
    fixedCell(profiles.peakIndex, 5),
    fixedCell(profiles.peakIndex - profiles.hostIndex, 5),
    core.stepOverWavelength === undefined
      ? ''
      : `step entered at ${core.stepOverWavelength.wavelengthsUm.map((um) => nmOf(um)).join(', ')} nm`,
  ])
  return [
    table(
      `Graded-index cores at ${nmOf(wavelengthUm)} nm`,
      [
        'Core',
        'Index profile',
        { label: 'Width, 1/e', unit: 'µm' },
        { label: 'Height or depth, 1/e', unit: 'µm' },
        'Peak index',
        'Index step',
        'Note',
      ],
      rows,
    ),
    ...found.map(({ core, profiles }) =>
      figureBlock(coreProfileFigure(`core-${core.id}`, core.name, profiles)),
    ),
  ]
}
