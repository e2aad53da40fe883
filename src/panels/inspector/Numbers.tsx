// Several numbers of one owner, a row each.

import { useMemo, useRef } from 'react'
import type { Quantity } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { JointFaces, JointPose } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { QuantityRow } from '../../ui/fields/QuantityRow'

export interface Spec<Field extends string> {
  readonly field: Field
  readonly label: string
  readonly rule: RuleName
}

/** Rows that a gap and a relay share. */
export const OFFSET_SPECS = [
  { field: 'offsetX', label: 'Offset x', rule: 'offset' },
  { field: 'offsetY', label: 'Offset y', rule: 'offset' },
] as const satisfies readonly Spec<keyof JointPose>[]

export const ANGLE_SPECS = [
  { field: 'tiltX', label: 'Tilt x', rule: 'tilt' },
  { field: 'tiltY', label: 'Tilt y', rule: 'tilt' },
  { field: 'roll', label: 'Roll', rule: 'roll' },
  { field: 'nearFaceAngle', label: 'Angle, fibre side', rule: 'faceAngle' },
  { field: 'farFaceAngle', label: 'Angle, chip side', rule: 'faceAngle' },
] as const satisfies readonly Spec<keyof JointPose | keyof JointFaces>[]

export function Numbers<Field extends string>({
  specs,
  owner,
  find,
  prefix = '',
  noteOf = () => undefined,
}: {
  /** Put before every label, so that numbers of two lenses are distinguished. */
  readonly prefix?: string
  readonly specs: readonly Spec<Field>[]
  /** A number that it does not have has no row. */
  readonly owner: { readonly [F in Field]?: Quantity | undefined }
  readonly find: (draft: Project) => { [F in Field]?: Quantity | undefined } | undefined
  readonly noteOf?: (field: Field) => string | undefined
}) {
  // Rows stay as they are while another number moves, so what they are given must not be new each time.
  const latest = useRef(find)
  latest.current = find
  const finders = useMemo(
    () =>
      specs.map(
        ({ field }) =>
          (draft: Project) =>
            latest.current(draft)?.[field],
      ),
    [specs],
  )
  return specs.map(({ field, label, rule }, at) => {
    const quantity = owner[field]
    const findOwn = finders[at]
    return quantity === undefined || findOwn === undefined ? null : (
      <QuantityRow
        key={field}
        label={`${prefix}${label}`}
        quantity={quantity}
        ruleName={rule}
        find={findOwn}
        note={noteOf(field)}
      />
    )
  })
}
