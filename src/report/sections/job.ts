// The job: what was asked for before any part was chosen.

import type { Quantity } from '../../model/quantity/quantity'
import { toleranceText, valueText } from '../../model/quantity/quantityWords'
import type { Project } from '../../model/schema/project'
import { type Cell, table } from '../document/blocks'
import type { SectionSpec } from '../section'

const words = (quantity: Quantity) => `${valueText(quantity)} ${toleranceText(quantity)}`.trim()

function facts({ requirements: asked }: Project): readonly (readonly [string, string])[] {
  const optional = (label: string, quantity: Quantity | undefined, before = '') =>
    quantity === undefined ? [] : [[label, `${before}${words(quantity)}`] as const]
  return [
    ['Wavelength', words(asked.wavelength)],
    ...(asked.wavelengthMin === undefined || asked.wavelengthMax === undefined
      ? []
      : [['Band', `${words(asked.wavelengthMin)} to ${words(asked.wavelengthMax)}`] as const]),
    ['Channels', String(asked.channels)],
    ...(asked.channels > 1 ? [['Pitch', words(asked.pitch)] as const] : []),
    [
      'Loss limit',
      `${words(asked.lossLimit)}, ${asked.lossBasis === 'percentile' ? `${asked.lossPercentile} % of assemblies` : asked.lossBasis}`,
    ],
    ...optional('Return loss', asked.returnLoss, 'at least '),
    ['Polarisation', asked.polarisation],
    ['Temperature', `${words(asked.temperatureMin)} to ${words(asked.temperatureMax)}`],
    ['Collimated section', asked.collimatedSection ? 'needed' : 'not needed'],
    ['Bonding', asked.bonding],
    ...(asked.costCeiling === undefined
      ? []
      : [['Cost of a channel', `at most ${asked.costCeiling}`] as const]),
    [
      'Station holds',
      `± ${words(asked.station.lateral)} across, ± ${words(asked.station.axial)} along, ± ${words(asked.station.angular)} in angle`,
    ],
  ]
}

export const jobSection: SectionSpec = {
  id: 'job',
  title: 'The job',
  build: ({ project }) => [
    table(
      'Requirements as agreed',
      ['Requirement', 'Asked for'],
      facts(project).map((fact): readonly Cell[] => fact),
    ),
  ],
}
