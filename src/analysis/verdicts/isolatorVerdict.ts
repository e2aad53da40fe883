// Whether a design holds the isolator that is requested: in a collimated section, with its length and behind its aperture.

import { requirementLabel } from '../../model/project/statedRequirements'
import { coreValue } from '../../model/quantity/quantity'
import { valueText } from '../../model/quantity/quantityWords'
import type { Candidate, Device } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import type { WantedIsolator } from '../../model/schema/requirements'
import { metIf, type Verdict, verdict } from '../results/verdict'

/** Relative; the same length in another unit must not fail by rounding. */
const ROUNDING = 1e-9

/** Deviations of the isolator in the design from the required one: it must be modelled with at least the length and at most the aperture. */
function shortcomings(found: Device, wanted: WantedIsolator): readonly string[] {
  const length = [coreValue(found.length, 'stretch'), coreValue(wanted.length, 'stretch')] as const
  const aperture = [
    coreValue(found.clearAperture, 'aperture'),
    coreValue(wanted.aperture, 'aperture'),
  ] as const
  const isolation =
    wanted.isolation === undefined || found.isolation === undefined
      ? null
      : ([coreValue(found.isolation, 'returnLoss'), coreValue(wanted.isolation, 'returnLoss')] as const)
  return [
    ...(length[0] >= length[1] * (1 - ROUNDING)
      ? []
      : [`modelled with a length of only ${valueText(found.length)}`]),
    ...(aperture[0] <= aperture[1] * (1 + ROUNDING)
      ? []
      : [`modelled with a larger aperture, ${valueText(found.clearAperture)}`]),
    ...(isolation === null || isolation[0] >= isolation[1]
      ? []
      : [`isolation of only ${found.isolation === undefined ? '' : valueText(found.isolation)}`]),
  ]
}

export function isolatorVerdict({ requirements }: Project, candidate: Candidate): readonly Verdict[] {
  const wanted = requirements.isolator
  if (wanted === undefined) return []
  const label = requirementLabel(requirements, 'isolator')
  const answer = (met: boolean, reason: string) => [verdict('isolator', label, metIf(met), reason)]
  const relays = candidate.chain.flatMap((element) => (element.kind === 'relay' ? [element] : []))
  if (relays.length === 0) return answer(false, 'no collimated section to hold an isolator')
  const found = relays.flatMap(({ device }) => (device?.isolation === undefined ? [] : [device]))
  if (found.length === 0) return answer(false, 'no isolator in the collimated section')
  if (requirements.direction === 'both') {
    return answer(false, 'light travels in both directions, but an isolator transmits in one only')
  }
  const faults = found.map((device) => shortcomings(device, wanted))
  const whole = faults.findIndex((each) => each.length === 0)
  if (whole >= 0) return answer(true, `${found[whole]?.name ?? 'isolator'} in the collimated section`)
  return answer(false, (faults[0] ?? []).join('; '))
}
