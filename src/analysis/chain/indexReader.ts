// The index that an entry names, at the project's wavelength.

import type { IndexSource } from '../../model/indexSource'
import type { Path } from '../../model/issue'
import { InputError } from '../../numerics/inputError'
import { refractiveIndex } from '../../optics/index'
import type { ChainContext } from './models'
import { constantReader, type Reader } from './readers'

/** Reader of the index. A wavelength outside the material's range is reported, and the candidate is then not computed. */
export function indexReader(context: ChainContext, source: IndexSource, label: string, path: Path): Reader {
  if (source.kind === 'value') {
    return context.readers.quantity(source.index, 'index', label, [...path, 'index'])
  }
  try {
    return constantReader(refractiveIndex(source.material, context.wavelengthUm))
  } catch (error) {
    if (!(error instanceof InputError)) throw error
    context.report({
      path: [...path, 'material'],
      code: 'range',
      message: `${label} of ${source.material}: ${error.message}`,
      fix: 'Choose another material or type the index as a number.',
    })
    return constantReader(1)
  }
}
