// The requirements that a project states, by the id and the label that their verdicts carry.

import { nmOf, plainText } from '../../numerics/numberText'
import { coreValue, type Quantity } from '../quantity/quantity'
import { valueText } from '../quantity/quantityWords'
import type { LossCriterion, Requirements } from '../schema/requirements'
import { byId } from '../words/byId'

interface StatedRequirement {
  readonly id: string
  readonly label: string
}

/** `P99`, `P99.5`. */
export const percentileName = (percentile: number): string => `P${plainText(percentile, 6)}`

/** Whether the criterion is asked of every channel of an assembly at once. */
export const asksAllChannels = ({ basis, channels }: LossCriterion, requirements: Requirements): boolean =>
  basis === 'percentile' && channels === 'all' && requirements.channels > 1

function lossLabel(criterion: LossCriterion, requirements: Requirements): string {
  const { basis, limit, percentile } = criterion
  if (basis !== 'percentile') return `Loss ≤ ${valueText(limit)}, ${basis}`
  const scope = asksAllChannels(criterion, requirements)
    ? `, all ${requirements.channels} channels`
    : requirements.channels > 1
      ? ', one channel'
      : ''
  return `Loss ≤ ${valueText(limit)}, ${percentileName(percentile)}${scope}`
}

const nm = (quantity: Quantity) => nmOf(coreValue(quantity, 'wavelength'))

function isolatorLabel({ isolator }: Requirements): string {
  if (isolator === undefined) return ''
  const isolation = isolator.isolation === undefined ? '' : `, ${valueText(isolator.isolation)}`
  return `Isolator ${valueText(isolator.length)} long, aperture ${valueText(isolator.aperture)}${isolation}`
}

/** Every stated requirement, in the order of the verdicts. A criterion keeps its own id. */
export function statedRequirements(requirements: Requirements): readonly StatedRequirement[] {
  const r = requirements
  const band = r.wavelengthMin !== undefined || r.wavelengthMax !== undefined
  const from = nm(r.wavelengthMin ?? r.wavelength)
  const to = nm(r.wavelengthMax ?? r.wavelength)
  const temperature = `Loss at ${r.temperatureMin.value} to ${r.temperatureMax.value} °C`.replaceAll('-', '−')
  const rows: readonly (readonly [id: string, label: string, stated: boolean])[] = [
    ...r.losses.map((each) => [each.id, lossLabel(each, r), true] as const),
    ['band', `Loss over ${from} to ${to} nm`, band],
    ...(['fibre', 'chip'] as const).map((port) => {
      const asked = port === 'fibre' ? r.returnLossFibre : r.returnLossChip
      const limit = asked === undefined ? '' : valueText(asked)
      return [
        `return-loss-${port}`,
        `Return loss towards the ${port} ≥ ${limit}`,
        asked !== undefined,
      ] as const
    }),
    ['isolator', isolatorLabel(r), r.isolator !== undefined],
    ['polarisation', 'Polarisation maintained', r.polarisation !== 'any'],
    [
      'extinction',
      `PER ≥ ${r.extinctionRatio === undefined ? '' : valueText(r.extinctionRatio)}`,
      r.extinctionRatio !== undefined,
    ],
    [
      'pdl',
      `PDL ≤ ${r.polarisationDependentLoss === undefined ? '' : valueText(r.polarisationDependentLoss)}`,
      r.polarisationDependentLoss !== undefined,
    ],
    ['irradiance', 'Irradiance within its limits', r.powerIn !== undefined && r.faceIrradiance !== undefined],
    ['bonding', r.bonding === 'bonded' ? 'Bonded' : 'Not bonded', r.bonding !== 'free choice'],
    ['collimated', 'Collimated section', r.collimatedSection],
    ['pitch', `${r.channels} channels at ${coreValue(r.pitch, 'pitch')} µm`, r.channels > 1],
    ['cost', `Cost ≤ ${r.costCeiling} per channel`, r.costCeiling !== undefined],
    ['temperature', temperature, true],
  ]
  return rows.flatMap(([id, label, stated]) => (stated ? [{ id, label }] : []))
}

/** The label of one stated requirement; its id where it is not stated. */
export function requirementLabel(requirements: Requirements, id: string): string {
  return byId(statedRequirements(requirements), id)?.label ?? id
}
