// The medium that a join is filled with, and the joins that must stay dry.

import type { Path } from '../../../model/issue'
import type { MediumEntry } from '../../../model/schema/parts'
import type { ChainContext } from './elementModels'
import { indexReader } from './indexReader'
import type { Reader } from './valueReaders'

interface FoundMedium {
  readonly medium: MediumEntry
  readonly index: Reader
}

export function findMedium(context: ChainContext, mediumId: string): FoundMedium {
  const at = context.project.media.findIndex((each) => each.id === mediumId)
  const medium = context.project.media[at]
  if (medium === undefined) throw new Error(`no medium ${mediumId}`)
  const path: Path = ['media', at]
  const { thermoOptic } = medium
  return {
    medium,
    index: indexReader(
      context,
      medium.index,
      medium.name,
      [...path, 'index'],
      thermoOptic && { quantity: thermoOptic, path: [...path, 'thermoOptic'] },
    ),
  }
}

/** Whether the medium is a gas; a gel or an adhesive is reported with the reason. */
export function requireGas(
  context: ChainContext,
  { medium }: FoundMedium,
  path: Path,
  what: string,
  reason: string,
): boolean {
  if (medium.state === 'gas') return true
  context.report({
    path: [...path, 'mediumId'],
    code: 'sequence',
    message: `${what} is in ${medium.name}, ${medium.state === 'gel' ? 'a gel' : 'an adhesive'}; it must be in a gas: ${reason}`,
    fix: 'Choose a gas as the medium, or another design where the joint must be bonded.',
  })
  return false
}
