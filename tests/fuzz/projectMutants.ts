// Projects with something wrong or something extreme in them, made from the demo and from one project with every family.

import { demoProject } from '../../src/model/index'
import { readProject } from '../../src/model/project/parseProject'
import { familiesProject } from '../analysis/support/families'
import type { Dice } from './dice'

const plainCopy = (value: unknown): unknown => JSON.parse(JSON.stringify(value))

const STARTS: readonly (() => unknown)[] = [demoProject, familiesProject]

/** Values that files hold by accident or by malice. */
const ODD_VALUES: readonly unknown[] = [
  0,
  -0,
  -1,
  1e-300,
  5e-324,
  1e300,
  Number.MAX_VALUE,
  -Number.MAX_VALUE,
  2 ** 53 + 2,
  4_294_967_296,
  null,
  true,
  '',
  'NaN',
  '1e400',
  '__proto__',
  '=1+1',
  '\u0000\u2028',
  '1'.repeat(5000),
  [],
  {},
  [[[]]],
]

interface Slot {
  readonly holder: Record<string, unknown>
  readonly key: string
}

function slots(root: unknown, wanted: (value: unknown, key: string) => boolean): readonly Slot[] {
  const found: Slot[] = []
  const waiting: unknown[] = [root]
  while (waiting.length > 0) {
    const holder = waiting.pop()
    if (typeof holder !== 'object' || holder === null) continue
    for (const [key, value] of Object.entries(holder)) {
      if (wanted(value, key)) found.push({ holder: holder as Record<string, unknown>, key })
      waiting.push(value)
    }
  }
  return found
}

type Change = (project: unknown, dice: Dice) => void

const isQuantity = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && 'value' in value && 'unit' in value

function changeAt(
  find: (value: unknown, key: string) => boolean,
  change: (slot: Slot, dice: Dice) => void,
): Change {
  return (project, dice) => {
    const positions = slots(project, find)
    if (positions.length > 0) change(dice.pick(positions), dice)
  }
}

const quantityChange = (change: (quantity: Record<string, unknown>, dice: Dice) => void): Change =>
  changeAt(isQuantity, ({ holder, key }, dice) => change(holder[key] as Record<string, unknown>, dice))

/** Each is one kind of damage. The first ones mostly keep the project legal: the core has to cope with them. */
const CHANGES: readonly Change[] = [
  quantityChange((quantity, dice) => {
    quantity.value = Number(quantity.value) * 10 ** (dice.below(9) - 4)
  }),
  quantityChange((quantity, dice) => {
    quantity.value = dice.pick([0, 1, -1, 45, -45, 900, -900, 1000, -1000, 1e5, 1e6, 1e9, 1e-9])
  }),
  quantityChange((quantity, dice) => {
    quantity.tolerance = {
      plusMinus: dice.pick([0, 1e-300, 1e-9, 1, 50, 900, 1e6, 1e9]),
      distribution: dice.pick(['normal', 'truncated normal', 'uniform', 'triangular', 'one-sided', 'fixed']),
      coverage: dice.pick([undefined, 1e-300, 1e-3, 2, 10]),
      side: dice.pick([undefined, 'above', 'below']),
      share: dice.pick([undefined, 'part', 'channel']),
    }
  }),
  quantityChange((quantity, dice) => {
    quantity.unit = dice.pick([
      'nm',
      'um',
      'mm',
      'm',
      'deg',
      'rad',
      'dB',
      '%',
      '1',
      'degC',
      'W',
      'uW',
      'furlong',
    ])
  }),
  changeAt(
    (value) => typeof value === 'number',
    (slot, dice) => {
      slot.holder[slot.key] = dice.pick([0, 1, 2, 1e-12, 1e12, 99.9999999, 100])
    },
  ),
  (project) => {
    const { requirements } = project as { requirements: Record<string, unknown> }
    requirements.powerIn = { value: 100, unit: 'mW', provenance: 'estimate' }
  },
  changeAt(
    (value) => typeof value !== 'object',
    (slot, dice) => {
      slot.holder[slot.key] = dice.pick(ODD_VALUES)
    },
  ),
  changeAt(
    () => true,
    (slot, dice) => {
      slot.holder[slot.key] = dice.pick(ODD_VALUES)
    },
  ),
  changeAt(
    () => true,
    ({ holder, key }) => {
      if (Array.isArray(holder)) holder.splice(Number(key), 1)
      else delete holder[key]
    },
  ),
  changeAt(Array.isArray, ({ holder, key }, dice) => {
    const list = holder[key] as unknown[]
    if (list.length > 0) list.splice(dice.below(list.length), 0, plainCopy(dice.pick(list)))
  }),
  changeAt(Array.isArray, ({ holder, key }) => {
    ;(holder[key] as unknown[]).reverse()
  }),
  changeAt(
    (value, key) => typeof value === 'string' && /id$/i.test(key),
    (slot, dice) => {
      slot.holder[slot.key] = dice.pick(['', 'nowhere', 'constructor', 'x'.repeat(81)])
    },
  ),
]
/** So often a mutant changes only what mostly stays legal. */
const GENTLE = 6
const GENTLE_SHARE = 0.7

/** One mutant as plain JSON, of one to four changes. The gentle kind keeps of its changes what is legal. */
export function projectMutant(dice: Dice): unknown {
  let project = plainCopy(dice.pick(STARTS)())
  const gentle = dice.chance(GENTLE_SHARE)
  for (let i = (gentle ? 4 : 1) + dice.below(4); i > 0; i--) {
    const changed = plainCopy(project)
    dice.pick(gentle ? CHANGES.slice(0, GENTLE) : CHANGES)(changed, dice)
    if (!gentle || readProject(plainCopy(changed)).ok) project = changed
  }
  return project
}
