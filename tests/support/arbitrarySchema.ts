// Generators made from the schemas of the project file, so that a field that is added to a schema is in the property tests
// at once. What a schema's own checks demand beyond its shape is made by hand.

import fc from 'fast-check'
import { RULES, type RuleName } from '../../src/model/quantity/quantityRules'
import { unitFactor, unitsOf } from '../../src/model/quantity/units'
import {
  indexMapSchema,
  stepOverWavelengthSchema,
  stepProfileSchema,
} from '../../src/model/schema/coreTables'
import { lotRowsSchema, packedNumbersSchema, stressRowsSchema } from '../../src/model/schema/measurement'
import { modePointSchema } from '../../src/model/schema/modeOverWavelength'
import { importedShapeSchema, indexProfileSchema } from '../../src/model/schema/modeShape'
import { packNumbers } from '../../src/numerics/compactNumbers'
import { anyWithin, logUniform, readings, text } from './arbitrary'

/** What the generator reads of a zod schema: its definition and that of each check. */
interface Definition {
  readonly type: string
  readonly checks?: readonly { readonly _zod: { readonly def: Check } }[]
  readonly shape?: Readonly<Record<string, Schema>>
  readonly element?: Schema
  readonly innerType?: Schema
  readonly valueType?: Schema
  readonly options?: readonly Schema[]
  readonly entries?: Readonly<Record<string, string>>
  readonly values?: readonly unknown[]
  readonly format?: string
}
interface Check {
  readonly check: string
  readonly value?: number
  readonly minimum?: number
  readonly maximum?: number
  readonly inclusive?: boolean
  readonly pattern?: RegExp
}
interface Schema {
  readonly def: unknown
  readonly meta: () => Readonly<Record<string, unknown>> | undefined
}

const LONGEST_LIST = 3
const DAYS = ['2026-03-14', '1999-12-31', '2024-02-29']

const byHand = new Map<Schema, fc.Arbitrary<unknown>>([
  [packedNumbersSchema, packed(1, 400)],
  [importedShapeSchema, importedShapes()],
  [lotRowsSchema, lotRows()],
  [stressRowsSchema, stressRows()],
  [indexProfileSchema, indexProfiles()],
  [stepProfileSchema, stepProfiles()],
  [stepOverWavelengthSchema, stepsOverWavelength()],
  [indexMapSchema, indexMaps()],
])

/** Any value that the schema allows; lists are short, but for what is packed. */
export function arbitraryOf(schema: Schema): fc.Arbitrary<unknown> {
  const own = byHand.get(schema)
  if (own !== undefined) return own
  const rule = schema.meta()?.rule
  if (rule !== undefined) return quantities(schema, rule as RuleName)
  return fieldOf(schema)
}

function fieldOf(schema: Schema): fc.Arbitrary<unknown> {
  const { type, shape, element, innerType, valueType, options, entries, values, ...rest } =
    schema.def as Definition
  const checks = rest.checks?.map((each) => each._zod.def) ?? []
  switch (type) {
    case 'object':
      return objects(shape ?? {})
    case 'array':
      return lists(element as Schema, checks)
    case 'union':
      return fc.oneof(...(options ?? []).map(arbitraryOf))
    case 'optional':
    case 'default':
      return arbitraryOf(innerType as Schema)
    case 'record':
      return fc.dictionary(fc.constantFrom('budget', 'array', 'yield'), arbitraryOf(valueType as Schema))
    case 'enum':
      return fc.constantFrom(...Object.values(entries ?? {}))
    case 'literal':
      return fc.constantFrom(...(values ?? []))
    case 'boolean':
      return fc.boolean()
    case 'string':
      return strings(checks)
    case 'number':
      return numbers(rest.format === 'safeint', checks)
    default:
      throw new Error(`no generator for a schema of type ${type}`)
  }
}

/** Optional fields are absent in half of the examples. */
function objects(shape: Readonly<Record<string, Schema>>): fc.Arbitrary<unknown> {
  const fields = Object.entries(shape)
  const isOptional = ([, schema]: readonly [string, Schema]) => (schema.def as Definition).type === 'optional'
  const required = fields.filter((field) => !isOptional(field)).map(([name]) => name)
  return fc.record(Object.fromEntries(fields.map(([name, schema]) => [name, arbitraryOf(schema)])), {
    requiredKeys: required,
    noNullPrototype: true,
  })
}

function lists(element: Schema, checks: readonly Check[]): fc.Arbitrary<unknown> {
  const least = Math.max(0, ...checks.flatMap((check) => check.minimum ?? []))
  const most = Math.min(least + LONGEST_LIST, ...checks.flatMap((check) => check.maximum ?? []))
  const size = { minLength: least, maxLength: most }
  if (element !== (modePointSchema as unknown as Schema)) return fc.array(arbitraryOf(element), size)
  return fc.uniqueArray(arbitraryOf(element), {
    ...size,
    selector: (point) => {
      const { value, unit } = (point as { wavelength: { value: number; unit: string } }).wavelength
      return (value * (unitFactor('length', unit) ?? 1)).toPrecision(8)
    },
  })
}

function strings(checks: readonly Check[]): fc.Arbitrary<string> {
  if (checks.some((check) => check.pattern !== undefined)) return fc.constantFrom(...DAYS)
  const least = Math.max(0, ...checks.flatMap((check) => check.minimum ?? []))
  const most = Math.min(20_000, ...checks.flatMap((check) => check.maximum ?? []))
  const longest = fc.constantFrom('x', 'µ', '"').map((letter) => letter.repeat(most))
  return fc.oneof({ weight: 20, arbitrary: text(least, most) }, { weight: 1, arbitrary: longest })
}

function numbers(whole: boolean, checks: readonly Check[]): fc.Arbitrary<number> {
  let [from, to] = [-1e9, 1e9]
  for (const { check, value = 0, inclusive } of checks) {
    if (check === 'greater_than') from = Math.max(from, inclusive ? value : value + 1e-9)
    if (check === 'less_than') to = Math.min(to, value)
  }
  return whole ? fc.integer({ min: Math.ceil(from), max: Math.floor(to) }) : anyWithin(from, to)
}

/** The whole range of the rule in every unit of its dimension, with every kind of tolerance, note and expression. */
function quantities(schema: Schema, ruleName: RuleName): fc.Arbitrary<unknown> {
  const { dimension, minCore, maxCore } = RULES[ruleName]
  return fc
    .tuple(anyWithin(minCore, maxCore), fc.constantFrom(...unitsOf(dimension)), objects(shapeOf(schema)))
    .map(([core, unit, quantity]) => {
      const factor = unitFactor(dimension, unit) ?? 1
      const value = core / factor
      const back = value * factor
      // A limit in another unit may come out a rounding error beyond it.
      const inside = back >= minCore && back <= maxCore ? value : value * (1 - Math.sign(back) * 1e-12)
      return { ...(quantity as object), value: inside + 0, unit }
    })
}

function shapeOf(schema: Schema): Readonly<Record<string, Schema>> {
  return (schema.def as Definition).shape ?? {}
}

/** Counts, decimals and single-precision numbers in turn. */
function packed(fewest: number, most: number): fc.Arbitrary<unknown> {
  return fc
    .tuple(
      readings({ fewest, most }, 0, 1000),
      fc.constantFrom((value: number) => value, Math.round, Math.fround),
    )
    .map(([values, kind]) => packNumbers(values.map(kind)))
}

function stressRows(): fc.Arbitrary<unknown> {
  return fc
    .tuple(lotRows(), fc.constantFrom('h', 'cycles'), logUniform(0.1, 1e6))
    .map(([rows, exposureUnit, step]) => ({
      ...rows,
      exposure: packNumbers(Float64Array.from({ length: rows.lossDb.count }, (_, i) => i * step)),
      exposureUnit,
    }))
}

function lotRows(): fc.Arbitrary<{ readonly lossDb: { readonly count: number } }> {
  return fc
    .record({
      losses: fc.array(anyWithin(-1, 60), { minLength: 2, maxLength: 30 }),
      assemblies: fc.integer({ min: 1, max: 5 }),
      returns: fc.boolean(),
      days: fc.boolean(),
    })
    .map(({ losses, assemblies, returns, days }) => {
      const packed = packNumbers(Float64Array.from(losses))
      return {
        labels: [
          {
            role: 'assembly',
            names: Array.from({ length: assemblies }, (_, i) => `A${i}`),
            values: packNumbers(Float64Array.from(losses, (_, i) => i % assemblies)),
          },
        ],
        lossDb: packed,
        ...(returns ? { returnLossDb: packed } : {}),
        ...(days ? { day: packed } : {}),
      }
    })
}

function importedShapes(): fc.Arbitrary<unknown> {
  const side = fc.integer({ min: 8, max: 24 })
  return fc
    .tuple(side, side, logUniform(1e-3, 50), fc.boolean(), text(1, 300))
    .chain(([nx, ny, step, flat, name]) => {
      const field = packed(nx * ny, nx * ny)
      return fc.record({
        kind: fc.constant('imported'),
        fileName: fc.constant(name),
        notes: fc.array(text(0, 2000), { maxLength: 3 }),
        nx: fc.constant(nx),
        ny: fc.constant(ny),
        dxUm: fc.constant(step),
        dyUm: fc.constant(step),
        x0Um: anyWithin(-10_000, 10_000),
        y0Um: anyWithin(-10_000, 10_000),
        re: field,
        ...(flat ? {} : { im: field }),
      })
    })
}

function indexProfiles(): fc.Arbitrary<unknown> {
  return fc
    .array(fc.tuple(logUniform(1e-3, 500), anyWithin(1, 5)), { minLength: 1, maxLength: 400 })
    .map((points) => ({
      kind: 'index profile',
      radiiUm: [0, ...points.map(([radius]) => radius).sort((a, b) => a - b)],
      indices: [1.5, ...points.map(([, index]) => index)],
    }))
}

/** Places that rise from the first on, with a value each. */
function rising(first: number, least: number, most: number, value: fc.Arbitrary<number>) {
  return fc
    .uniqueArray(fc.tuple(anyWithin(least, most), value), {
      minLength: 1,
      maxLength: 30,
      selector: ([at]) => at,
    })
    .map((points) => {
      const sorted = points.filter(([at]) => at > first).sort(([a], [b]) => a - b)
      return { positions: sorted.map(([at]) => at), values: sorted.map(([, each]) => each) }
    })
    .filter(({ positions }) => positions.length > 0)
}

function stepProfiles(): fc.Arbitrary<unknown> {
  return rising(0, 1e-3, 1000, anyWithin(-1, 1)).map(({ positions, values }) => ({
    distancesUm: [0, ...positions],
    shares: [1, ...values],
  }))
}

function stepsOverWavelength(): fc.Arbitrary<unknown> {
  return rising(0, 0.3, 5, logUniform(1e-4, 3)).map(({ positions, values }) => ({
    wavelengthsUm: positions,
    steps: values,
  }))
}

function indexMaps(): fc.Arbitrary<unknown> {
  const side = fc.integer({ min: 4, max: 20 })
  return fc
    .tuple(side, side, logUniform(1e-3, 50), text(1, 300), anyWithin(1, 6))
    .chain(([nx, ny, step, fileName, background]) =>
      packed(nx * ny, nx * ny).map((steps) => ({
        fileName,
        notes: [],
        nx,
        ny,
        dxUm: step,
        dyUm: step,
        x0Um: 0,
        y0Um: -step,
        background,
        steps,
      })),
    )
}
