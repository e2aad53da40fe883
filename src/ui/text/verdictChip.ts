// Each verdict in a few words: what is judged, the number, the limit, and the depth tab that shows why.

import type { Verdict } from '../../analysis/index'
import { asksAllChannels, percentileName } from '../../model/project/statedRequirements'
import { coreValue } from '../../model/quantity/quantity'
import type { Project } from '../../model/schema/project'
import type { LossCriterion, Requirements } from '../../model/schema/requirements'
import { byId } from '../../model/words/byId'
import { plainText } from '../../numerics/numberText'
import type { DepthTab } from '../../store/view'

export interface Chip {
  readonly name: string
  /** Empty if the number is missing or out of date. */
  readonly value: string
  readonly limit: string
  readonly tab: DepthTab
}

const BASIS_NAMES = { nominal: 'Nominal', RSS: 'RSS', 'worst case': 'Worst case' } as const

function lossName(criterion: LossCriterion, requirements: Requirements): string {
  const { basis, percentile } = criterion
  if (basis !== 'percentile') return BASIS_NAMES[basis]
  const name = percentileName(percentile)
  return asksAllChannels(criterion, requirements) ? `${name} all ${requirements.channels}` : name
}

/** What a verdict is called on its chip, and where it is explained. */
function targetOf(id: string, requirements: Requirements): readonly [name: string, tab: DepthTab] | null {
  const criterion = byId(requirements.losses, id)
  if (criterion !== undefined) {
    const tab = asksAllChannels(criterion, requirements) ? 'array' : 'yield'
    return [lossName(criterion, requirements), tab]
  }
  const { temperatureMin, temperatureMax, channels, pitch } = requirements
  switch (id) {
    case 'band':
      return ['Band', 'spectrum']
    case 'return-loss-fibre':
      return ['RL fibre', 'reflections']
    case 'return-loss-chip':
      return ['RL chip', 'reflections']
    case 'temperature':
      return [`${plainText(temperatureMin.value)}…${plainText(temperatureMax.value)} °C`, 'temperature']
    case 'pitch':
      return [`${channels} × ${plainText(coreValue(pitch, 'pitch'), 6)} µm`, 'array']
    case 'extinction':
      return ['PER', 'polarisation']
    case 'pdl':
      return ['PDL', 'polarisation']
    case 'polarisation':
      return ['PM', 'polarisation']
    case 'irradiance':
      return ['Irradiance', 'power']
    case 'isolator':
      return ['Isolator', 'reflections']
    default:
      return null
  }
}

/** The verdict's chip. A group of which one suffices names its members; a desirable one is marked. */
export function chipOf(verdict: Verdict, { requirements }: Project): Chip {
  const members = verdict.alternatives ?? [verdict]
  const targets = members.map((each) => targetOf(each.id, requirements))
  const names = members.map((each, at) => targets[at]?.[0] ?? each.label)
  const caveat = verdict.caveat === undefined ? '' : ` (${verdict.caveat})`
  return {
    name: `${verdict.wish === true ? 'Desirable: ' : ''}${names.join(' or ')}`,
    value: verdict.value === undefined ? '' : `${verdict.value}${caveat}`,
    limit: verdict.limit ?? '',
    tab: targets.find((each) => each !== null)?.[1] ?? 'tolerance',
  }
}
