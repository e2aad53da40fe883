// The axes that a map can have, and what the station holds on each.

import { memo } from 'react'
import { AXIS_TEXT } from '../../figures/loss/axisText'
import { coreValue } from '../../model/quantity/quantity'
import type { Requirements } from '../../model/schema/requirements'
import { MISALIGNMENT_AXES, type MisalignmentAxis } from '../../optics/index'
import { ChoiceField } from '../../ui/fields/ChoiceField'

export const AxisChoice = memo(function AxisChoice({
  label,
  axis,
  other,
  onChoose,
}: {
  readonly label: string
  readonly axis: MisalignmentAxis
  readonly other: MisalignmentAxis
  readonly onChoose: (axis: MisalignmentAxis) => void
}) {
  return (
    <ChoiceField
      label={label}
      value={axis}
      choices={MISALIGNMENT_AXES.filter((each) => each !== other).map((value) => ({
        value,
        label: AXIS_TEXT[value].name,
      }))}
      onChoose={(value) => {
        const chosen = MISALIGNMENT_AXES.find((each) => each === value)
        if (chosen !== undefined) onChoose(chosen)
      }}
    />
  )
})

/** Half the range that the station holds an axis in, core unit. */
export function stationHalf(station: Requirements['station'], axis: MisalignmentAxis): number {
  if (axis === 'gapUm') return coreValue(station.axial, 'lateralAccuracy')
  if (axis === 'offsetXUm' || axis === 'offsetYUm') return coreValue(station.lateral, 'lateralAccuracy')
  return coreValue(station.angular, 'angularAccuracy')
}
