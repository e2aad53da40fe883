// As a schema: what is brought as a table for the core of a cross-section: profiles of its index step, the step over wavelength, a map.

import { z } from 'zod'
import { RULES } from '../quantity/quantityRules'
import { SECTION_LIMITS } from '../words/crossSection'
import { packedNumbersSchema } from './measurement'
import { open } from './openObject'

const { profilePoints, wavelengths, mapPoints, distanceUm } = SECTION_LIMITS

/** Says what is wrong with places that must rise, and with lists of different lengths. */
function requireRising(
  coordinates: readonly number[],
  values: readonly number[],
  names: {
    readonly coordinate: string
    readonly coordinates: string
    readonly values: string
    readonly first?: number
  },
  report: (message: string, path: (string | number)[], input: unknown) => void,
): void {
  if (coordinates.length !== values.length) {
    report(
      `${names.values} has ${values.length} entries; must be as many as ${names.coordinates}, ${coordinates.length}`,
      [names.values],
      values.length,
    )
  }
  coordinates.forEach((coordinate, at) => {
    const before = coordinates[at - 1]
    const least = before ?? names.first
    if (least === undefined || (before === undefined ? coordinate === least : coordinate > least)) return
    report(
      `${names.coordinate} is ${coordinate}; must be ${before === undefined ? `${least} in the first row` : `above ${least}`}`,
      [names.coordinates, at],
      coordinate,
    )
  })
}

/** Shares of the greatest index step over the distance from the core centre, or from the surface downwards, um. */
export const stepProfileSchema = open({
  distancesUm: z.array(z.number().min(0).max(distanceUm)).min(2).max(profilePoints),
  shares: z.array(z.number().min(-1).max(1)).min(2).max(profilePoints),
}).check((context) => {
  const { distancesUm, shares } = context.value
  const report = (message: string, path: (string | number)[], input: unknown) =>
    context.issues.push({ code: 'custom', message, input, path })
  const names = { coordinate: 'distance', coordinates: 'distancesUm', values: 'shares', first: 0 }
  requireRising(distancesUm, shares, names, report)
  const most = Math.max(...shares)
  if (!(most > 0)) report(`the largest fraction is ${most}; must be above 0`, ['shares'], most)
})
export type StepProfileEntry = z.infer<typeof stepProfileSchema>

/** The peak index step over wavelength, straight between the rows and beyond them as in the first and last. */
export const stepOverWavelengthSchema = open({
  wavelengthsUm: z
    .array(z.number().min(RULES.wavelength.minCore).max(RULES.wavelength.maxCore))
    .min(1)
    .max(wavelengths),
  steps: z.array(z.number().positive().max(3)).min(1).max(wavelengths),
}).check((context) => {
  const { wavelengthsUm, steps } = context.value
  const report = (message: string, path: (string | number)[], input: unknown) =>
    context.issues.push({ code: 'custom', message, input, path })
  requireRising(
    wavelengthsUm,
    steps,
    { coordinate: 'wavelength', coordinates: 'wavelengthsUm', values: 'steps' },
    report,
  )
})
export type StepOverWavelength = z.infer<typeof stepOverWavelengthSchema>

/** Index steps above the surrounding glass on a regular grid, row by row, y upwards. */
export const indexMapSchema = open({
  fileName: z.string().min(1).max(300),
  notes: z.array(z.string().max(2000)).max(50),
  nx: z.int().min(4).max(mapPoints),
  ny: z.int().min(4).max(mapPoints),
  dxUm: z.number().positive().max(50),
  dyUm: z.number().positive().max(50),
  x0Um: z.number().min(-10_000).max(10_000),
  y0Um: z.number().min(-10_000).max(10_000),
  /** Index of the glass around the core, from the border of the map. */
  background: z.number().min(1).max(6),
  steps: packedNumbersSchema,
}).check((context) => {
  const { nx, ny, steps } = context.value
  if (steps.count === nx * ny) return
  context.issues.push({
    code: 'custom',
    message: `steps has ${steps.count} numbers; must be nx times ny, ${nx * ny}`,
    input: steps.count,
    path: ['steps', 'count'],
  })
})
export type IndexMapEntry = z.infer<typeof indexMapSchema>
