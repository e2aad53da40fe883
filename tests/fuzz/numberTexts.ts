// Texts in number fields: pieces of numbers, units and signs put together by chance.

import { RULES, type RuleName } from '../../src/model/quantity/quantityRules'
import { readQuantityText } from '../../src/model/quantity/quantityText'
import type { Dice } from './dice'
import { notANumberIn } from './nonFinite'
import type { Outcome } from './outcome'

const PIECES =
  '0|1|10.4|1e400|1e-320|-|−|+|*|/|(|)|^|,|.| |um|µm|nm|deg|°|rad|dB|%|W|pi|sqrt|1/0|NaN|Infinity|constructor|\u2028|e|e5|²|K|\u0000'.split(
    '|',
  )

export function numberText(dice: Dice): { readonly text: string; readonly rule: RuleName } {
  const piece = dice.chance(0.02) ? '1'.repeat(3000) : ''
  const text = Array.from({ length: 1 + dice.below(7) }, () => dice.pick(PIECES)).join('') + piece
  return { text, rule: dice.pick(Object.keys(RULES) as RuleName[]) }
}

export async function numberTrial(text: string, rule: RuleName): Promise<Outcome> {
  const read = await readQuantityText(text, RULES[rule])
  if (read.ok) {
    return Number.isFinite(read.value.value)
      ? { kind: 'finite' }
      : { kind: 'fault', faults: [`"${text}" is read as ${read.value.value}`] }
  }
  const message = read.issues[0]?.message ?? ''
  const wrong = message === '' || notANumberIn(message.replace(`"${text}"`, '')) !== null
  return wrong ? { kind: 'fault', faults: [`"${text}" is refused with "${message}"`] } : { kind: 'refused' }
}
