import type { Requirements } from '../../model/schema/requirements'
import { editProject } from '../../store/workbench'

/** One edit of the requirements, one step of undo. */
export function editRequirements(recipe: (own: Requirements) => void): void {
  editProject((draft) => recipe(draft.requirements))
}

export const choicesOf = (values: readonly string[]) => values.map((value) => ({ value, label: value }))

/** Reads a count or an amount; returns a message where it is neither. */
export function numberField(
  label: string,
  [least, greatest]: readonly [number, number],
  whole: boolean,
  take: (value: number) => void,
): (text: string) => string | null {
  return (text) => {
    const value = Number(text.replace(',', '.'))
    const fits =
      Number.isFinite(value) && value >= least && value <= greatest && (!whole || Number.isInteger(value))
    if (!fits) {
      return `${label} is "${text}"; must be ${whole ? 'a whole number, ' : ''}${least} to ${greatest}`
    }
    take(value)
    return null
  }
}
