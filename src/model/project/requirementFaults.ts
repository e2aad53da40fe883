// Requirements that are fine one by one but cannot hold together.

import { nmOf } from '../../numerics/numberText'
import type { Issue } from '../issue'
import { coreValue } from '../quantity/quantity'
import type { Requirements } from '../schema/requirements'

/** Every contradiction; an empty list where there is none. */
export function requirementFaults(requirements: Requirements): readonly Issue[] {
  const faults: Issue[] = []
  const fault = (field: string, message: string) =>
    faults.push({ path: ['requirements', field], code: 'range', message })
  const lowest = coreValue(requirements.temperatureMin, 'temperature')
  const highest = coreValue(requirements.temperatureMax, 'temperature')
  if (lowest > highest) {
    fault(
      'temperatureMin',
      `the minimum operating temperature is ${lowest} °C; must be at most the maximum, ${highest} °C`,
    )
  }
  const centre = coreValue(requirements.wavelength, 'wavelength')
  const { wavelengthMin, wavelengthMax } = requirements
  const from = wavelengthMin === undefined ? centre : coreValue(wavelengthMin, 'wavelength')
  const to = wavelengthMax === undefined ? centre : coreValue(wavelengthMax, 'wavelength')
  if (from > to) {
    fault('wavelengthMin', `the band start is ${nmOf(from)} nm; must be at most the band end, ${nmOf(to)} nm`)
  } else if (centre < from || centre > to) {
    fault(
      'wavelength',
      `the wavelength is ${nmOf(centre)} nm; must be within the band, ${nmOf(from)} to ${nmOf(to)} nm`,
    )
  }
  return faults
}
