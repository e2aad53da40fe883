// The numbers that a candidate was computed from, as a reviewer wants to read them.

import { compileCandidate } from '../analysis/compileCandidate'
import type { Project } from '../model/project'
import type { Provenance } from '../model/quantity'
import { quantityAt } from '../model/quantityAt'
import { unitLabel } from '../model/units'

export interface SheetInput {
  readonly label: string
  readonly value: string
  /** `± 0.5 µm, uniform`; empty where the number is taken as exact. */
  readonly tolerance: string
  readonly provenance: Provenance
}

const short = (value: number) => Number(value.toPrecision(7)).toString().replace('-', '−')

/** Every quantity that the candidate's chain reads, in the order of the light; empty where it cannot be computed. */
export function sheetInputs(project: Project, candidateId: string): readonly SheetInput[] {
  const compiled = compileCandidate(project, candidateId)
  if (!compiled.ok) return []
  return compiled.value.variables.flatMap(({ label, path }): readonly SheetInput[] => {
    const quantity = quantityAt(project, path)
    if (quantity === undefined) return []
    const unit = unitLabel(quantity.unit)
    const { tolerance } = quantity
    return [
      {
        label,
        value: `${short(quantity.value)} ${unit}`.trim(),
        tolerance:
          tolerance === undefined || tolerance.distribution === 'fixed'
            ? ''
            : `± ${`${short(tolerance.plusMinus)} ${unit}`.trim()}, ${tolerance.distribution}`,
        provenance: quantity.provenance,
      },
    ]
  })
}

/** The requirements as lines of text, for the head of the sheet. */
export function requirementLines({ requirements }: Project): readonly string[] {
  const text = (value: number, unit: Parameters<typeof unitLabel>[0]) =>
    `${short(value)} ${unitLabel(unit)}`.trim()
  const { wavelength, wavelengthMin, wavelengthMax, channels, pitch, station } = requirements
  const band =
    wavelengthMin === undefined || wavelengthMax === undefined
      ? ''
      : `, band ${text(wavelengthMin.value, wavelengthMin.unit)} to ${text(wavelengthMax.value, wavelengthMax.unit)}`
  return [
    `Wavelength ${text(wavelength.value, wavelength.unit)}${band}`,
    `${channels} channel${channels === 1 ? '' : 's'} at ${text(pitch.value, pitch.unit)} pitch`,
    `Station holds ± ${text(station.lateral.value, station.lateral.unit)} across, ± ${text(station.axial.value, station.axial.unit)} along, ± ${text(station.angular.value, station.angular.unit)} in angle`,
  ]
}
