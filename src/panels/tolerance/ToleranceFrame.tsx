// The tolerance of a joint in its pane: the map as high as the pane, next to it the alignment tolerances in a few lines and
// what the map shows; curve and table below.

import type { ReactNode } from 'react'
import type { AxisWindow } from '../../analysis/tolerance/toleranceCurve'
import { AXIS_TEXT } from '../../figures/loss/axisText'
import { fixedText } from '../../numerics/numberText'
import { figurePx, useRoom } from '../../ui/figures/useRoom'
import { useWidth } from '../../ui/figures/useWidth'

const SHOWN_DB = 1
const STACKED_PX = 300
const LEAST_PX = 150
const AROUND_PX = 16
/** Taller than this part of its width the map is only blank above and below. */
const TALLEST = 0.95
/** Two lines of the map's sentence, which are seen whole below it where that leaves the map large enough. */
const SENTENCE_PX = 42
const GOOD_PX = 190
/** In a pane that is this high there is space for the sentence and the tools below the map, and for the choices where they are there. */
const HIGH_PX = 420
const BELOW_PX = 84
const CHOICES_PX = 66
/** The curve below the map, and where it has a column with the table below it. */
const CURVE_PX = 250
const AROUND_CURVE_PX = 300
const MOST_CURVE_PX = 560

/** `± 0.81 µm` where both sides agree, else `−0.57 +0.97 µm`; empty where the axis never loses that much. */
function windowText(window: AxisWindow): string {
  const { unit, perCore } = AXIS_TEXT[window.axis]
  const mark = window.marks.find(({ excessDb }) => excessDb === SHOWN_DB)
  const side = (value: number | null | undefined) =>
    value === null || value === undefined ? null : fixedText(value * perCore, 2)
  const [below, above] = [side(mark?.below), side(mark?.above)]
  const space = unit === '°' ? '' : ' '
  if (below === null && above === null) return ''
  if (below === above) return `± ${below}${space}${unit}`
  const signed = [below === null ? '' : `−${below}`, above === null ? '' : `+${above}`]
  return `${signed.filter((text) => text !== '').join(' ')}${space}${unit}`
}

export function ToleranceFrame({
  windows,
  map,
  choices,
  note,
  isProvisional,
  children,
}: {
  readonly windows: readonly AxisWindow[]
  /** The map; `terse` if the list beside it explains the dashed box. */
  readonly map: (heightPx: number, terse: boolean) => ReactNode
  readonly choices: ReactNode
  /** Further information next to the map. */
  readonly note?: ReactNode
  /** Whether the alignment tolerances may still change. */
  readonly isProvisional: boolean
  /** Curve and table. */
  readonly children: (curvePx: number) => ReactNode
}) {
  const [room, roomPx] = useRoom()
  const [frame, framePx] = useWidth()
  const [holder, widthPx] = useWidth()
  const isWide = framePx <= widthPx + 1
  const belowPx = isWide ? BELOW_PX + CHOICES_PX : BELOW_PX
  const fillPx =
    roomPx === null ? STACKED_PX : Math.max(LEAST_PX, roomPx - (roomPx > HIGH_PX ? belowPx : AROUND_PX))
  const widestPx = Math.min(fillPx, Math.max(LEAST_PX, TALLEST * widthPx))
  const isShort = roomPx !== null && roomPx <= HIGH_PX
  const shortPx = (roomPx ?? 0) - SENTENCE_PX
  const mapPx = shortPx >= GOOD_PX ? Math.min(widestPx, shortPx) : widestPx
  return (
    <>
      {room}
      <div ref={frame} className="tolerance-first">
        <div ref={holder} className="tolerance-map" data-short={isShort}>
          {roomPx !== 0 && widthPx > 0 && map(mapPx, isShort)}
        </div>
        <div className="tolerance-read">
          <dl className={isProvisional ? 'provisional' : undefined}>
            <dt>{SHOWN_DB} dB excess loss</dt>
            {windows.map((window) => {
              const text = windowText(window)
              return text === '' ? null : (
                <dd key={window.axis}>
                  {AXIS_TEXT[window.axis].name} <strong>{text}</strong>
                </dd>
              )
            })}
          </dl>
          {isShort && <p>Dashed: alignment-station accuracy</p>}
          {note}
          {choices}
        </div>
      </div>
      {children(isWide ? figurePx(roomPx, AROUND_CURVE_PX, CURVE_PX, MOST_CURVE_PX) : CURVE_PX)}
    </>
  )
}
