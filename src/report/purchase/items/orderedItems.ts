// Everything that a design needs to be bought, each part once, along the path.

import type { Evaluation } from '../../../analysis/results/evaluation'
import type { Candidate } from '../../../model/schema/candidate'
import type { MediumEntry } from '../../../model/schema/parts'
import type { Project } from '../../../model/schema/project'
import { stated } from '../../characteristics/characteristic'
import { facetItem, taperChipItem } from './chipItem'
import { fibreItem } from './fibreItem'
import type { OrderedItem, PathPosition } from './orderedItem'
import { relayItems } from './relayItems'

function mediumItem(medium: MediumEntry, jointId: string): OrderedItem {
  return {
    key: `medium/${medium.id}`,
    name: medium.name,
    kind: medium.state === 'adhesive' ? 'Adhesive' : 'Index-matching gel',
    piece: 'smallest pack',
    perAssembly: null,
    characteristics: stated([
      ['index', 'Refractive index', medium.index.kind === 'value' ? medium.index.index : undefined, 'index'],
      ['thermoOptic', 'Thermo-optic coefficient, dn/dT', medium.thermoOptic, 'certificate'],
    ]),
    facts: medium.index.kind === 'material' ? [['Material', medium.index.material]] : [],
    jointIds: [jointId],
    has: { cable: false, endFace: false, key: null },
    questions: [
      'Supplier to state shelf life and storage temperature, and to provide the safety data sheet.',
      ...(medium.state === 'adhesive'
        ? ['Supplier to state cure schedule (wavelength, dose, temperature) and cure shrinkage.']
        : []),
    ],
  }
}

function itemsAt(pathPosition: PathPosition): readonly OrderedItem[] {
  const { project, candidate, at } = pathPosition
  const element = candidate.chain[at]
  switch (element?.kind) {
    case 'fibre':
    case 'stub': {
      const item = fibreItem(pathPosition, element)
      return item === null ? [] : [item]
    }
    case 'taper chip':
      return project.converters.flatMap((each) =>
        each.id === element.converterId && each.kind === 'taper chip'
          ? [taperChipItem(pathPosition, each)]
          : [],
      )
    case 'facet':
      return project.facets
        .filter(({ id }) => id === element.facetId)
        .map((facet) => facetItem(pathPosition, facet))
    case 'gap':
      return project.media
        .filter(({ id, state }) => id === element.mediumId && state !== 'gas')
        .map((medium) => mediumItem(medium, element.id))
    case 'relay':
      return relayItems(project, element)
    default:
      return []
  }
}

/** The same part at two places is bought once, in the number of both. */
function merged(items: readonly OrderedItem[]): readonly OrderedItem[] {
  return items.flatMap((item, i) => {
    const same = items.filter(({ key }) => key === item.key)
    if (items.findIndex(({ key }) => key === item.key) !== i) return []
    const several = same.length > 1
    return [
      {
        ...item,
        perAssembly:
          item.perAssembly === null
            ? null
            : same.reduce((sum, { perAssembly }) => sum + (perAssembly ?? 0), 0),
        jointIds: [...new Set(same.flatMap(({ jointIds }) => jointIds))],
        facts: several
          ? [
              ...new Map(
                same.flatMap(({ facts }) => facts).map((fact) => [fact.join('\u0000'), fact]),
              ).values(),
            ]
          : item.facts,
      },
    ]
  })
}

export function orderedItems(
  project: Project,
  candidate: Candidate,
  evaluation: Evaluation,
): readonly OrderedItem[] {
  return merged(candidate.chain.flatMap((_, at) => itemsAt({ project, candidate, evaluation, at })))
}
