// The axes of joints and lenses that a station sets, and their tolerances brought to what it holds: in new elements from the
// start, in designs that exist as a list of changes.

import type { Path } from '../issue'
import { setCoreHalfWidth } from '../quantity/coreQuantity'
import { coreHalfWidth, type Quantity, quantityOf } from '../quantity/quantity'
import type { RuleName } from '../quantity/quantityRules'
import { toleranceText } from '../quantity/quantityWords'
import type { ChainElement, RelayElement } from '../schema/candidate'
import type { Project } from '../schema/project'
import type { Requirements } from '../schema/requirements'
import { type AxisSetting, RELAY_ALIGNED } from '../words/candidate'
import { jointNames, ofJoint } from './jointNames'
import { type HeldAxis, heldTo } from './stationAccuracy'

const DIGITS = 3
/** Half widths nearer than this to each other, relatively, are the same as they are written. */
const SAME = 5e-3

/** One axis that is set: where it is found in its element, and how it is held. */
interface SetAxis {
  readonly keys: readonly string[]
  readonly label: string
  readonly held: HeldAxis
  readonly setting: AxisSetting
  readonly rule: RuleName
  readonly quantity: Quantity
}

type Spec = readonly [field: string, label: string, held: HeldAxis, rule: RuleName]

const POSE: readonly Spec[] = [
  ['offsetX', 'offset x', 'lateral', 'offset'],
  ['offsetY', 'offset y', 'lateral', 'offset'],
  ['tiltX', 'tilt x', 'yaw', 'tilt'],
  ['tiltY', 'tilt y', 'angular', 'tilt'],
  ['roll', 'roll', 'roll', 'roll'],
]
const LENS: readonly Spec[] = [
  ['offsetX', 'decentre x', 'lateral', 'offset'],
  ['offsetY', 'decentre y', 'lateral', 'offset'],
  ['offsetZ', 'axial shift z', 'axial', 'offset'],
  ['tiltX', 'tilt x', 'yaw', 'tilt'],
  ['tiltY', 'tilt y', 'angular', 'tilt'],
]
const GAP: readonly Spec[] = [['gap', 'gap', 'axial', 'gap']]
const DISTANCES: readonly Spec[] = [
  ['frontGap', 'fibre face to lens 1', 'axial', 'gap'],
  ['backGap', 'lens 2 to facet', 'axial', 'gap'],
  ['offsetZ', 'axial shift z', 'axial', 'offset'],
]

/** Every set axis of a gap or a relay with its lenses; none of other elements. */
export function setAxes(element: ChainElement): readonly SetAxis[] {
  const axes = (
    owner: object,
    specs: readonly Spec[],
    aligned: readonly string[],
    lens?: 'lens1' | 'lens2',
  ) =>
    specs.flatMap(([field, label, held, rule]): readonly SetAxis[] => {
      const quantity = Reflect.get(owner, field) as Quantity | undefined
      if (quantity === undefined) return []
      return [
        {
          keys: lens === undefined ? [field] : [lens, field],
          label: lens === undefined ? label : `${lens === 'lens1' ? 'lens 1' : 'lens 2'} ${label}`,
          held,
          setting: aligned.includes(field) ? 'active' : 'passive',
          rule,
          quantity,
        },
      ]
    })
  if (element.kind === 'gap') return axes(element, [...GAP, ...POSE], element.aligned ?? [])
  if (element.kind !== 'relay') return []
  const { lens1, lens2, aligned = [] } = element
  return [
    ...axes(element, [...DISTANCES, ...POSE], aligned),
    ...axes(lens1, LENS, lens1.aligned ?? [], 'lens1'),
    ...axes(lens2, LENS, lens2.aligned ?? [], 'lens2'),
  ]
}

/** The tolerance of an axis as the station holds it; its value and the shape of its tolerance stay. */
function held(axis: SetAxis, requirements: Requirements): Quantity {
  const quantity = structuredClone(axis.quantity)
  setCoreHalfWidth(quantity, axis.rule, heldTo(requirements, axis.held, axis.setting), DIGITS)
  return quantity
}

function write(element: object, keys: readonly string[], quantity: Quantity): void {
  const owner = keys.slice(0, -1).reduce<object>((at, key) => Reflect.get(at, key) as object, element)
  Reflect.set(owner, keys.at(-1) ?? '', quantity)
}

/** A chain with every free-space joint and lens held as the station holds it. */
export function heldByStation(
  chain: readonly ChainElement[],
  requirements: Requirements,
): readonly ChainElement[] {
  return chain.map((element) => {
    const copy = structuredClone(element)
    for (const axis of setAxes(copy)) write(copy, axis.keys, held(axis, requirements))
    return copy
  })
}

/** An axis of a design whose tolerance is not what the station holds. */
export interface StationChange {
  readonly designId: string
  readonly designName: string
  readonly elementId: string
  readonly path: Path
  readonly label: string
  readonly setting: AxisSetting
  /** Empty without a present tolerance. */
  readonly now: string
  readonly next: string
}

function differs(axis: SetAxis, requirements: Requirements): boolean {
  const [now, next] = [coreHalfWidth(axis.quantity, axis.rule), heldTo(requirements, axis.held, axis.setting)]
  return Math.abs(now - next) > SAME * Math.max(now, next)
}

/** Every tolerance of a set axis that differs from what the station holds, design by design. */
export function stationChanges({ candidates, requirements }: Project): readonly StationChange[] {
  return candidates.flatMap(({ id, name, chain }, at) => {
    const names = jointNames(chain)
    return chain.flatMap((element, position) =>
      setAxes(element).flatMap((axis): readonly StationChange[] =>
        differs(axis, requirements)
          ? [
              {
                designId: id,
                designName: name,
                elementId: element.id,
                path: ['candidates', at, 'chain', position, ...axis.keys],
                label: ofJoint(axis.label, names.get(element.id)),
                setting: axis.setting,
                now: toleranceText(axis.quantity),
                next: toleranceText(held(axis, requirements)),
              },
            ]
          : [],
      ),
    )
  })
}

/** Brings the listed axes of a draft to what the station holds. */
export function applyStation(draft: Project, changes: readonly StationChange[]): void {
  const wanted = new Set(changes.map(({ path }) => path.join('/')))
  for (const [at, { chain }] of draft.candidates.entries()) {
    for (const [position, element] of chain.entries()) {
      for (const axis of setAxes(element)) {
        const path = ['candidates', at, 'chain', position, ...axis.keys].join('/')
        if (!wanted.has(path)) continue
        setCoreHalfWidth(
          axis.quantity,
          axis.rule,
          heldTo(draft.requirements, axis.held, axis.setting),
          DIGITS,
        )
      }
    }
  }
}

/**
 * Takes one axis of the fibre side of a relay in or out of its active alignment. The shift along the light is there only while it
 * is searched: otherwise the distance to lens 1 says where the fibre is.
 */
export function toggleRelayAxis(
  relay: RelayElement,
  axis: (typeof RELAY_ALIGNED)[number],
  requirements: Requirements,
): void {
  relay.aligned = RELAY_ALIGNED.filter((each) => (each === axis) !== (relay.aligned ?? []).includes(each))
  if (axis !== 'offsetZ') return
  if (relay.aligned.includes('offsetZ')) {
    relay.offsetZ = quantityOf(0, 'um')
    setCoreHalfWidth(relay.offsetZ, 'offset', heldTo(requirements, 'axial', 'active'), DIGITS)
  } else delete relay.offsetZ
}

/**
 * Runs a change of how axes of an element are set; a tolerance that was the station's for the old setting becomes that for the
 * new one, any other stays.
 */
export function switchSetting(element: ChainElement, change: () => void, requirements: Requirements): void {
  const before = new Map(
    setAxes(element).map((axis) => [
      axis.keys.join('/'),
      { setting: axis.setting, isDefault: !differs(axis, requirements) },
    ]),
  )
  change()
  for (const axis of setAxes(element)) {
    const old = before.get(axis.keys.join('/'))
    if (old === undefined || old.setting === axis.setting || !old.isDefault) continue
    setCoreHalfWidth(axis.quantity, axis.rule, heldTo(requirements, axis.held, axis.setting), DIGITS)
  }
}
