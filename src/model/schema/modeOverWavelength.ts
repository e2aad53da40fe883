// As a schema: how a mode defined by its diameters changes with wavelength. Only the change matters: at the project's wavelength the
// diameters are those of the part.

import { z } from 'zod'
import { rounded } from '../../numerics/numberText'
import { coreValue } from '../quantity/quantity'
import { LIMITS } from '../words/limits'
import { open } from './openObject'
import { quantity } from './quantity'
export const modePointSchema = open({
  wavelength: quantity('wavelength'),
  mfdX: quantity('mfd'),
  mfdY: quantity('mfd'),
})
export type ModePoint = z.infer<typeof modePointSchema>

export const modeOverWavelengthSchema = z.discriminatedUnion('kind', [
  /** MFD proportional to wavelength^exponent. */
  open({ kind: z.literal('power law'), exponent: quantity('exponent') }),
  /** Diameters at two or more wavelengths, joined by straight lines. */
  open({
    kind: z.literal('points'),
    points: z
      .array(modePointSchema)
      .min(2)
      .max(LIMITS.modePoints)
      .check((context) => {
        const at = context.value.map((point) => coreValue(point.wavelength, 'wavelength'))
        const same = at.findIndex((wavelength, i) => at.indexOf(wavelength) !== i)
        if (same < 0) return
        const nm = rounded((at[same] ?? 0) * 1000, 8)
        context.issues.push({
          code: 'custom',
          message: `has two entries at ${nm} nm; wavelengths must differ`,
          input: context.value,
          path: [same, 'wavelength'],
        })
      }),
  }),
])
export type ModeOverWavelength = z.infer<typeof modeOverWavelengthSchema>
