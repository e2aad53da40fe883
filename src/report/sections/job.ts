// The job: what was requested before any part was chosen.

import { AXIS_KINDS, type AxisKind } from '../../model/designs/stationAccuracy'
import { alternativesOf } from '../../model/project/requirementGroups'
import { requirementLabel, statedRequirements } from '../../model/project/statedRequirements'
import type { Quantity } from '../../model/quantity/quantity'
import { toleranceText, valueText } from '../../model/quantity/quantityWords'
import type { Project } from '../../model/schema/project'
import { type Cell, group, table, text } from '../document/blocks'
import type { SectionSpec } from '../section'

const words = (quantity: Quantity) => `${valueText(quantity)} ${toleranceText(quantity)}`.trim()

/** What is given, whatever any design does. */
function facts({ requirements: asked }: Project): readonly (readonly [string, string])[] {
  const optional = (label: string, quantity: Quantity | undefined) =>
    quantity === undefined ? [] : [[label, words(quantity)] as const]
  return [
    ['Direction of light', asked.direction],
    ['Wavelength', words(asked.wavelength)],
    ['Channels', String(asked.channels)],
    ...(asked.channels > 1 ? [['Channel pitch', words(asked.pitch)] as const] : []),
    ...optional('Launch power', asked.powerIn),
    ...optional('Irradiance limit of end faces and coatings', asked.faceIrradiance),
    ['Alignment-station accuracy', accuracyText(asked.station)],
    ...(accuracyText(asked.station.active ?? {}) === ''
      ? []
      : [['Residual after active alignment', accuracyText(asked.station.active ?? {})] as const]),
  ]
}

/** Each stated figure with its kind: `± 0.5 µm lateral, ± 1 µm axial`. */
function accuracyText(stated: { readonly [kind in AxisKind]?: Quantity | undefined }): string {
  const figures = AXIS_KINDS.flatMap((kind) => {
    const quantity = stated[kind]
    return quantity === undefined ? [] : [`± ${words(quantity)} ${kind}`]
  })
  return figures.join(', ')
}

/** `mandatory`, `desirable`, or the others of which one suffices. */
function weight({ requirements }: Project, id: string): string {
  const others = alternativesOf(requirements, id).map((each) => requirementLabel(requirements, each))
  const level = requirements.wishes?.includes(id) ? 'desirable' : 'mandatory'
  return others.length === 0 ? level : `${level}; or instead: ${others.join(', ')}`
}

export const jobSection: SectionSpec = {
  id: 'job',
  title: 'Requirements and application',
  build: ({ project }) => [
    ...(project.remark === undefined || project.remark === '' ? [] : [text(project.remark)]),
    group(
      'beside',
      table(
        'Conditions',
        ['Quantity', 'Value'],
        facts(project).map((fact): readonly Cell[] => fact),
      ),
      table(
        'Requirements as agreed',
        ['Requirement', 'Priority'],
        statedRequirements(project.requirements).map(({ id, label }) => ({
          mark: `requirement-${id}`,
          cells: [label, weight(project, id)],
        })),
      ),
    ),
  ],
}
