// What surrounds a proposed design: a fibre array where there are several channels, and a usual mount.

import { usualArray } from '../../model/designs/usualArray'
import { usualMount } from '../../model/designs/usualMount'
import type { Quantity } from '../../model/quantity/quantity'
import type { Candidate, ChainElement } from '../../model/schema/candidate'
import type { Requirements } from '../../model/schema/requirements'

/** Array and mount of a proposed design. A relay's lens arrays carry its pitch instead of a fibre array. */
export function surroundings(
  chain: readonly ChainElement[],
  requirements: Requirements,
  inputPitch: Quantity = requirements.pitch,
): Pick<Candidate, 'array' | 'mount'> {
  const inRow = requirements.channels > 1 && !chain.some(({ kind }) => kind === 'relay')
  return {
    mount: usualMount(),
    ...(inRow && { array: usualArray(inputPitch, requirements.channels) }),
  }
}
