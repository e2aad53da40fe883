// As a schema: how the mode of a fibre or a facet is shaped where it is more than a Gaussian: the exact mode of the core, of an index
// profile or of the facet's cross-section, or a field that was brought from elsewhere.

import { z } from 'zod'
import { FIELD_LIMITS } from '../words/modeShape'
import { packedNumbersSchema } from './measurement'
import { open } from './openObject'

const gaussianShape = open({ kind: z.literal('gaussian') })

/** A field on a regular grid about the mode's axis: amplitudes row by row, y upwards, the greatest 1. */
export const importedShapeSchema = open({
  kind: z.literal('imported'),
  fileName: z.string().min(1).max(300),
  notes: z.array(z.string().max(2000)).max(50),
  nx: z.int().min(8).max(FIELD_LIMITS.points),
  ny: z.int().min(8).max(FIELD_LIMITS.points),
  dxUm: z.number().positive().max(FIELD_LIMITS.stepUm),
  dyUm: z.number().positive().max(FIELD_LIMITS.stepUm),
  x0Um: z.number().min(-10_000).max(10_000),
  y0Um: z.number().min(-10_000).max(10_000),
  re: packedNumbersSchema,
  /** Absent where the phase is flat, or was assumed to be. */
  im: packedNumbersSchema.optional(),
}).check((context) => {
  const { nx, ny, re, im } = context.value
  for (const [field, numbers] of [
    ['re', re],
    ['im', im],
  ] as const) {
    if (numbers === undefined || numbers.count === nx * ny) continue
    context.issues.push({
      code: 'custom',
      message: `${field} has ${numbers.count} numbers; must be nx times ny, ${nx * ny}`,
      input: numbers.count,
      path: [field, 'count'],
    })
  }
})
export type ImportedShape = z.infer<typeof importedShapeSchema>

/** Index over radius from the axis outwards, um; a radius given twice is a step. Beyond the last all is as there. */
export const indexProfileSchema = open({
  kind: z.literal('index profile'),
  radiiUm: z.array(z.number().min(0).max(500)).min(2).max(FIELD_LIMITS.profilePoints),
  indices: z.array(z.number().min(1).max(5)).min(2).max(FIELD_LIMITS.profilePoints),
}).check((context) => {
  const { radiiUm, indices } = context.value
  const report = (message: string, path: (string | number)[], input: unknown) =>
    context.issues.push({ code: 'custom', message, input, path })
  if (radiiUm.length !== indices.length) {
    report(
      `indices has ${indices.length} entries; must be as many as radiiUm, ${radiiUm.length}`,
      ['indices'],
      indices.length,
    )
  }
  radiiUm.forEach((radius, at) => {
    const before = radiiUm[at - 1]
    if (before === undefined ? radius !== 0 : radius < before) {
      report(
        `radius is ${radius}; must be ${before === undefined ? '0' : `${before} or more`}`,
        ['radiiUm', at],
        radius,
      )
    }
  })
})
export type IndexProfile = z.infer<typeof indexProfileSchema>

/** 'core' is the exact mode of the core by which the fibre is known. */
export const fibreShapeSchema = z.discriminatedUnion('kind', [
  gaussianShape,
  open({ kind: z.literal('core') }),
  indexProfileSchema,
  importedShapeSchema,
])
export type FibreShape = z.infer<typeof fibreShapeSchema>

/** 'cross-section' is the mode of the facet's own cross-section. */
export const facetShapeSchema = z.discriminatedUnion('kind', [
  gaussianShape,
  open({ kind: z.literal('cross-section') }),
  importedShapeSchema,
])
export type FacetShape = z.infer<typeof facetShapeSchema>
