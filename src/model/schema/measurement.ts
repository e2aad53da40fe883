// As a schema: a measurement as the project keeps it: the readings themselves, compactly, and what is needed to evaluate them again.
// Results are never stored: they follow from this.

import { z } from 'zod'
import { type CompactNumbers, unpackNumbers } from '../../numerics/compactNumbers'
import { EXPOSURE_UNITS, LIFETIME_LIMITS } from '../words/lifetime'
import { READING_LIMITS } from '../words/limits'
import { LOT_LABELS, READING_ROLES, READING_UNITS } from '../words/measurement'
import { open } from './openObject'
import { quantity } from './quantity'

const id = z.string().min(1).max(80)
const NUMBER_BYTES = { u1: 1, u2: 2, f4: 4, f8: 8 } as const

/** No counts of one or two bytes are greater. */
const MOST_COUNTS = 65_535

/** One issue for the first packed number that is not finite or greater in magnitude than `most`. */
function refuseBeyond(
  context: { readonly issues: z.core.$ZodRawIssue[] },
  packed: CompactNumbers,
  most: number,
  path: string[] = [],
): void {
  if (context.issues.length > 0) return // it does not even unpack
  if (most >= MOST_COUNTS && (packed.type === 'u1' || packed.type === 'u2')) return
  const values = unpackNumbers(packed)
  const at = values.findIndex((value) => !(Math.abs(value) <= most))
  if (at < 0) return
  const allowed = most === Number.MAX_VALUE ? 'a finite number' : `−${most} to ${most}`
  context.issues.push({
    code: 'custom',
    message: `number ${at + 1} of ${values.length} is ${values[at]}; must be ${allowed}`,
    input: values[at],
    path: [...path, 'base64'],
  })
}

/** Numbers as base64 of the narrowest little-endian type that holds each of them exactly. */
export const packedNumbersSchema = open({
  type: z.enum(['u1', 'u2', 'f4', 'f8']),
  count: z.int().min(0).max(READING_LIMITS.numbers),
  base64: z
    .string()
    .max(READING_LIMITS.packedCharacters)
    .regex(/^[A-Za-z0-9+/]*={0,2}$/),
}).check((context) => {
  if (context.issues.length > 0) return // one fault is one message
  const { type, count, base64 } = context.value
  const bytes = count * NUMBER_BYTES[type]
  const length = 4 * Math.ceil(bytes / 3)
  const digits = Math.ceil((4 * bytes) / 3)
  const padding = base64.indexOf('=')
  const report = (is: string, must: number) =>
    context.issues.push({
      code: 'custom',
      message: `base64 has ${is}; must be ${must} for ${count} numbers of type ${type}`,
      input: base64,
      path: ['base64'],
    })
  if (base64.length !== length) report(`${base64.length} characters`, length)
  else if ((padding < 0 ? length : padding) !== digits) report(`${padding} digits before its padding`, digits)
  if (context.issues.length > 0) return
  if (type === 'f4' || type === 'f8') refuseBeyond(context, context.value, Number.MAX_VALUE)
})

/** One column of readings, already in core units: rad, um, uW or another linear signal, dB. */
const readingColumnSchema = open({
  label: z.string().max(READING_LIMITS.labelCharacters),
  role: z.enum(READING_ROLES),
  coreUnit: z.enum(READING_UNITS),
  values: packedNumbersSchema,
}).check((context) => {
  const { values, coreUnit } = context.value
  refuseBeyond(context, values, READING_LIMITS.most[coreUnit], ['values'])
})
export type ReadingColumn = z.infer<typeof readingColumnSchema>

/** Words of one column of a lot table: each once, and which of them every row has. */
const lotLabelSchema = open({
  role: z.enum(LOT_LABELS),
  names: z.array(z.string().max(READING_LIMITS.labelCharacters)).max(READING_LIMITS.lotRows),
  values: packedNumbersSchema,
}).check((context) => {
  const { names, values } = context.value
  if (context.issues.length > 0) return
  const at = unpackNumbers(values).findIndex((index) => !Number.isInteger(index) || !(index in names))
  if (at < 0) return
  context.issues.push({
    code: 'custom',
    message: `row ${at + 1} names entry ${unpackNumbers(values)[at]}; must be a whole number from 0, below ${names.length}`,
    input: values,
    path: ['values'],
  })
})

const lotColumns = {
  labels: z.array(lotLabelSchema).max(LOT_LABELS.length),
  lossDb: packedNumbersSchema,
  returnLossDb: packedNumbersSchema.optional(),
  /** Days since 1970-01-01, with their fractions. */
  day: packedNumbersSchema.optional(),
}

/** The rows of a lot: every column has one entry per measured channel. */
export const lotRowsSchema = open(lotColumns).check((context) => {
  checkRows(context, context.value)
})
export type LotRows = z.infer<typeof lotRowsSchema>

/** The rows of a stress test: those of a lot, each at the hours or cycles after which it was measured. */
export const stressRowsSchema = open({
  ...lotColumns,
  exposure: packedNumbersSchema,
  exposureUnit: z.enum(EXPOSURE_UNITS),
}).check((context) => {
  checkRows(context, context.value)
  refuseBeyond(context, context.value.exposure, LIFETIME_LIMITS.exposure[1], ['exposure'])
})
export type StressRows = z.infer<typeof stressRowsSchema>

function checkRows(
  context: { readonly issues: z.core.$ZodRawIssue[] },
  {
    labels,
    lossDb,
    returnLossDb,
    day,
    exposure,
  }: Omit<LotRows, 'exposure'> & { readonly exposure?: CompactNumbers },
): void {
  refuseBeyond(context, lossDb, READING_LIMITS.most.dB, ['lossDb'])
  if (returnLossDb !== undefined)
    refuseBeyond(context, returnLossDb, READING_LIMITS.most.dB, ['returnLossDb'])
  const columns = [
    ...labels.map(({ role, values }) => ({ name: role, count: values.count })),
    { name: 'returnLossDb', count: returnLossDb?.count ?? lossDb.count },
    { name: 'day', count: day?.count ?? lossDb.count },
    { name: 'exposure', count: exposure?.count ?? lossDb.count },
  ]
  for (const { name, count } of columns) {
    if (count === lossDb.count) continue
    context.issues.push({
      code: 'custom',
      message: `${name} has ${count} rows; must be ${lossDb.count}, one for each loss`,
      input: count,
      path: [name],
    })
  }
}

const common = {
  id,
  name: z.string().min(1).max(200),
  fileName: z.string().min(1).max(READING_LIMITS.fileNameCharacters),
  /** Day of the file, ISO: 2026-03-14. */
  date: z.string().regex(/^\d{4}-\d{2}-\d{2}$/),
  /** Comments of the file, and what was done to the readings on the way in. */
  notes: z.array(z.string().max(READING_LIMITS.noteCharacters)).max(READING_LIMITS.notes),
}
const columns = z.array(readingColumnSchema).min(1).max(READING_LIMITS.columns)
const side = z.int().min(READING_LIMITS.fewestPixels).max(READING_LIMITS.mostPixels)
/** Power of the reference, fibre to fibre, where losses are to be had from absolute powers. */
const referencePower = quantity('power').optional()
/** Absent: linear, without a stated uncertainty. */
const detectorExponent = quantity('detectorExponent').optional()

export const measurementSchema = z.discriminatedUnion('method', [
  open({
    ...common,
    method: z.literal('far-field'),
    columns,
    wavelength: quantity('wavelength'),
    angleScale: quantity('scaleFactor'),
    detectorExponent: quantity('detectorExponent'),
  }),
  open({
    ...common,
    method: z.literal('offset'),
    columns,
    probeMfd: quantity('mfd'),
    stageScale: quantity('scaleFactor'),
    detectorExponent: quantity('detectorExponent'),
    referencePower,
  }),
  open({
    ...common,
    method: z.literal('raster'),
    columns,
    probeMfd: quantity('mfd'),
    stageScale: quantity('scaleFactor'),
    detectorExponent,
  }),
  open({
    ...common,
    method: z.literal('loopback'),
    columns,
    /** Needed where all guides have one length. */
    propagation: quantity('propagationLoss').optional(),
    referencePower,
  }),
  open({
    ...common,
    method: z.literal('repeated'),
    unit: z.enum(['dB', 'um']),
    values: packedNumbersSchema,
  }).check((context) => {
    const { unit, values } = context.value
    refuseBeyond(context, values, READING_LIMITS.most[unit], ['values'])
  }),
  open({
    ...common,
    method: z.literal('lot'),
    rows: lotRowsSchema,
    /** Standard uncertainty of one measured loss. */
    lossUncertainty: quantity('loss'),
  }),
  open({
    ...common,
    method: z.literal('stress'),
    rows: stressRowsSchema,
    lossUncertainty: quantity('loss'),
  }),
  open({
    ...common,
    method: z.literal('image'),
    width: side,
    height: side,
    /** Highest count of the camera; absent where the file knew none. */
    fullScale: z.number().positive().max(READING_LIMITS.mostCounts).optional(),
    /** Of the camera's own pixels at the object. */
    pixelPitch: quantity('pixelPitch'),
    /** Camera pixels averaged into one kept pixel, along a row and down a column. */
    binning: z.int().min(1).max(READING_LIMITS.binning),
    detectorExponent,
    pixels: packedNumbersSchema,
  }).check((context) => refuseBeyond(context, context.value.pixels, READING_LIMITS.mostCounts, ['pixels'])),
])
export type Measurement = z.infer<typeof measurementSchema>
export type MeasurementMethod = Measurement['method']
export type MeasurementOf<M extends MeasurementMethod> = Extract<Measurement, { method: M }>
