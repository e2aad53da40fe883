// The index that an entry names, at the vector's wavelength and temperature.

import type { Path } from '../../../model/issue'
import type { Quantity } from '../../../model/quantity/quantity'
import type { IndexSource } from '../../../model/schema/indexSource'
import { InputError } from '../../../numerics/inputError'
import { refusalText } from '../../../numerics/refusalText'
import { MATERIALS, refractiveIndex } from '../../../optics/index'
import type { ChainContext } from './elementModels'
import { constantReader, type Reader, readerOf } from './valueReaders'

/** Remembers the wavelength it was last asked for, because one vector is read many times. */
function dispersive(context: ChainContext, material: string): Reader {
  let knownUm = context.wavelengthUm
  let known = refractiveIndex(material, knownUm)
  return readerOf([context.wavelength], (v) => {
    const wavelengthUm = context.wavelength(v)
    if (wavelengthUm !== knownUm) {
      known = refractiveIndex(material, wavelengthUm)
      knownUm = wavelengthUm
    }
    return known
  })
}

/** Index at the temperature of assembly, and its change per kelvin as the catalogue knows it. */
function indexAtAssembly(
  context: ChainContext,
  source: IndexSource,
  what: string,
  path: Path,
): { readonly index: Reader; readonly perKelvin: number } {
  if (source.kind === 'value') {
    return {
      index: context.readers.quantity(source.index, 'index', `index of ${what}`, [...path, 'index']),
      perKelvin: 0,
    }
  }
  try {
    const index = dispersive(context, source.material)
    return { index, perKelvin: MATERIALS[source.material].thermoOpticPerK }
  } catch (error) {
    if (!(error instanceof InputError)) throw error
    context.report({
      path: [...path, 'material'],
      code: 'range',
      message: `index of ${what}, ${source.material}: ${refusalText(error)}`,
      fix: 'Choose another material or enter the index as a number.',
    })
    return { index: constantReader(1), perKelvin: 0 }
  }
}

/**
 * Reader of the index of `what`. An entered `thermoOptic` takes precedence over the catalogue's. A wavelength outside the material's range is
 * reported, and the candidate is then not computed.
 */
export function indexReader(
  context: ChainContext,
  source: IndexSource,
  what: string,
  path: Path,
  thermoOptic?: { readonly quantity: Quantity; readonly path: Path },
): Reader {
  const { index, perKelvin } = indexAtAssembly(context, source, what, path)
  const rise = context.temperatureRise
  if (thermoOptic !== undefined) {
    const slope = context.readers.quantity(
      thermoOptic.quantity,
      'thermoOptic',
      `dn/dT of ${what}`,
      thermoOptic.path,
    )
    return readerOf([index, slope, rise], (v) => index(v) + slope(v) * rise(v))
  }
  return perKelvin === 0 ? index : readerOf([index, rise], (v) => index(v) + perKelvin * rise(v))
}
