// Conditions of the requirements that move joints in addition to the tolerances: the ends of the temperature range and of the band.

import type { Path } from '../../../model/issue'
import { coreValue } from '../../../model/quantity/quantity'
import type { ChainContext } from './elementModels'
import type { Values } from './valueReaders'

/** Taken for the temperature of assembly where no mount says another, degC. */
export const ROOM_TEMPERATURE_C = 20

/** Writers of each condition into a vector at assembly; `path` is that of an element of the chain. */
export function requiredConditions(
  { project, operating, wavelengthUm }: ChainContext,
  path: Path,
): readonly ((v: Values) => void)[] {
  const [rise, shift] = operating
  const { requirements, candidates } = project
  const mount = candidates[Number(path[1])]?.mount
  const assembledC =
    mount === undefined ? ROOM_TEMPERATURE_C : coreValue(mount.assemblyTemperature, 'temperature')
  const writer = (slot: number | undefined, value: number) => (v: Values) => {
    if (slot !== undefined) v[slot] = value
  }
  const temperatures = [requirements.temperatureMin, requirements.temperatureMax].map((end) =>
    writer(rise, coreValue(end, 'temperature') - assembledC),
  )
  const band = [requirements.wavelengthMin, requirements.wavelengthMax].flatMap((end) =>
    end === undefined ? [] : [writer(shift, coreValue(end, 'wavelength') - wavelengthUm)],
  )
  return [...temperatures, ...band]
}
