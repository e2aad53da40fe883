// What a part may be ordered as: one number, or two that keep their ratio, such as the two diameters of a mode.

import type { Path } from '../../model/issue'
import type { RuleName } from '../../model/quantity/quantityRules'
import { LP11_CUTOFF_V } from '../../optics/index'
import type { CompiledCandidate } from '../path/compileCandidate'
import type { Values } from '../path/vector/valueReaders'

export interface SizedDimension {
  readonly id: string
  readonly label: string
  readonly rule: RuleName
  readonly slots: readonly number[]
  readonly paths: readonly Path[]
  /** Upper limit of the size, where something other than the loss sets one; core units. */
  readonly mostCore?: number
  /** What the dimension is chosen for, read from the chain: the magnification of a relay. Absent where it is itself. */
  readonly reading?: (v: Values) => number
}

/** Fields of parts that an order can state. */
const SIZED: ReadonlySet<string> = new Set([
  'mfdX',
  'coreDiameter',
  'na',
  'radius',
  'spotX',
  'workingDistance',
  'inputMfdX',
  'outputMfdX',
  'focalLength',
  'diameter',
  'frontRadius',
  'backRadius',
  'rodPitch',
])

/** The y of a mode follows its x. */
function partnerOf(field: string): string | null {
  return /(mfd|spot|Mfd)X$/.test(field) ? `${field.slice(0, -1)}Y` : null
}

const PARTS: ReadonlySet<string | number | undefined> = new Set(['fibres', 'facets', 'converters', 'lenses'])

/** Fields of a lens that set its focal length, whichever it has. */
const FOCUSING: ReadonlySet<string> = new Set([
  'focalLength',
  'diameter',
  'radius',
  'frontRadius',
  'rodPitch',
])

/** The magnification of every relay, moved by what focuses its lens 2; none where both lenses are one part. */
function magnifications(
  compiled: CompiledCandidate,
  parts: readonly SizedDimension[],
): readonly SizedDimension[] {
  return compiled.joins.flatMap(({ relay }): readonly SizedDimension[] => {
    if (relay === undefined) return []
    const { elementId, lensPaths } = relay(compiled.nominal)
    const [first, second] = lensPaths
    if (first.join('/') === second.join('/')) return []
    const lens2 = parts.find(
      ({ paths }) =>
        paths[0]?.slice(0, second.length).join('/') === second.join('/') &&
        FOCUSING.has(String(paths[0]?.at(-1))),
    )
    if (lens2 === undefined) return []
    return [
      {
        ...lens2,
        id: `magnification/${elementId}`,
        label: `magnification, by the ${lens2.label}`,
        reading: (v) => relay(v).magnification,
      },
    ]
  })
}

/** All dimensions of the candidate's parts along the path, then the magnification of its relays. */
export function sizedDimensions(compiled: CompiledCandidate): readonly SizedDimension[] {
  const parts = partDimensions(compiled)
  return [...parts, ...magnifications(compiled, parts)]
}

const CORE_PARTNERS: Readonly<Record<string, string>> = { coreDiameter: 'na', na: 'coreDiameter' }

/** The size at which a core begins to carry a second mode; null for other numbers and for cores that do already. */
function singleModeLimit({ variables, joins, nominal }: CompiledCandidate, at: number): number | null {
  const own = variables[at]
  const partner = CORE_PARTNERS[String(own?.path.at(-1))]
  if (own === undefined || partner === undefined) return null
  const other = variables.find(
    ({ path }) => path.at(-1) === partner && path.slice(0, -1).join('/') === own.path.slice(0, -1).join('/'),
  )
  const wavelengthUm = joins
    .map(({ view }) => view?.(nominal).joint.wavelengthUm)
    .find((each) => each !== undefined)
  if (other === undefined || wavelengthUm === undefined) return null
  const most = (LP11_CUTOFF_V * wavelengthUm) / (Math.PI * other.nominal)
  return most > own.nominal ? most : null
}

function partDimensions(compiled: CompiledCandidate): readonly SizedDimension[] {
  return compiled.variables.flatMap(({ path, label, rule }, at): readonly SizedDimension[] => {
    const field = String(path.at(-1))
    if (!PARTS.has(path[0]) || !SIZED.has(field)) return []
    const partner = partnerOf(field)
    const partnerPath = [...path.slice(0, -1), partner ?? '']
    const other =
      partner === null
        ? -1
        : compiled.variables.findIndex((each) => each.path.join('/') === partnerPath.join('/'))
    const id = path.join('/')
    const mostCore = singleModeLimit(compiled, at)
    const limited = mostCore === null ? {} : { mostCore }
    if (other < 0) return [{ id, label, rule, slots: [at], paths: [path], ...limited }]
    return [
      {
        id,
        label: `${label.replace(/ x\b/, '')} (x and y scaled together)`,
        rule,
        slots: [at, other],
        paths: [path, partnerPath],
      },
    ]
  })
}
