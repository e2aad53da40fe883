// A tolerance allocation as numbers and words: what each tolerance is now and what it becomes.

import type { ShareOut } from '../../analysis/yield/shareOut'
import { quantityAt, scaleTolerance } from '../../model/quantity/quantityAt'
import { unitLabel, withUnitLabel } from '../../model/quantity/units'
import type { Project } from '../../model/schema/project'
import { plainText } from '../../numerics/numberText'

/** A change of less than this is not worth a new drawing. */
const WORTH_CHANGING = 0.02

export const toleranceKey = (path: readonly (string | number)[]): string => path.join('/')

/** A half width, `factor` times as wide, with its unit. */
export const widthText = (plusMinus: number, unit: string, factor = 1): string =>
  withUnitLabel(plainText(plusMinus * factor, 3), unit)

/** The allocated half width of a ranked tolerance; a dash where it has none. */
export function allocatedText(
  plan: ShareOut | null,
  {
    path,
    plusMinus,
    unit,
  }: { readonly path: readonly (string | number)[]; readonly plusMinus: number; readonly unit: string },
): string {
  const key = toleranceKey(path)
  const found = plan?.tolerances.find((each) => toleranceKey(each.path) === key)
  return found === undefined ? '–' : widthText(plusMinus, unit, found.factor)
}

interface OtherTolerance {
  readonly key: string
  readonly text: string
}

/** The tolerances that are not among those listed, as they are now and as allocated. */
export function otherTolerances(
  { tolerances }: ShareOut,
  project: Project,
  listed: readonly { readonly path: readonly (string | number)[] }[],
): readonly OtherTolerance[] {
  const shown = new Set(listed.map(({ path }) => toleranceKey(path)))
  return tolerances.flatMap(({ path, label, factor }) => {
    const key = toleranceKey(path)
    if (shown.has(key)) return []
    const quantity = quantityAt(project, path)
    const now = quantity?.tolerance?.plusMinus ?? 0
    const unit = unitLabel(quantity?.unit ?? '1')
    return [{ key, text: `${label}: ${widthText(now, unit)} now, ${widthText(now, unit, factor)} allocated` }]
  })
}

/** Writes the allocated tolerances into a draft; those that hardly change stay. */
export function applyAllocation(draft: Project, { tolerances }: Pick<ShareOut, 'tolerances'>): void {
  for (const { path, factor } of tolerances) {
    const quantity = quantityAt(draft, path)
    if (quantity !== undefined && Math.abs(factor - 1) > WORTH_CHANGING) scaleTolerance(quantity, factor)
  }
}
