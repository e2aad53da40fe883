// The optimum of a part dimension and the range that meets the limit: a curve, and a click that applies it to the part.

import { useMemo, useState } from 'react'
import type { CompiledCandidate } from '../../analysis/path/compileCandidate'
import { sizedDimensions } from '../../analysis/sizing/dimensions'
import type { SizeCurve } from '../../analysis/sizing/sizeCurve'
import { sizeCurveFigure } from '../../figures/loss/sizeCurve'
import { followerOf } from '../../model/parts/oneWidth'
import { leadingLimitDb } from '../../model/project/lossCriteria'
import { setCoreHalfWidthWithin, setCoreValue } from '../../model/quantity/coreQuantity'
import { coreValue } from '../../model/quantity/quantity'
import { quantityAt } from '../../model/quantity/quantityAt'
import { unitLabel } from '../../model/quantity/units'
import { byId } from '../../model/words/byId'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { FigureView } from '../../ui/figures/FigureView'
import { figurePx, useRoom } from '../../ui/figures/useRoom'
import { SearchLine } from '../../ui/jobs/SearchLine'
import { type SearchedDesign, useDesignJob } from '../../ui/jobs/useDesignJob'
import { perCore, shownUnit } from '../../ui/text/coreText'

/** What is above and below the curve, and its least height. */
const AROUND_PX = 275
const LEAST_PX = 320
const DIGITS = 3

export function SizePanel({
  project,
  designId,
  ready,
  compiled,
}: SearchedDesign & { readonly compiled: CompiledCandidate }) {
  const dimensions = useMemo(() => sizedDimensions(compiled), [compiled])
  const [chosenId, setChosenId] = useState(
    () => dimensions.find(({ id }) => id.startsWith('facets'))?.id ?? dimensions[0]?.id ?? '',
  )
  const limitDb = leadingLimitDb(project.requirements)
  const dimension = byId(dimensions, chosenId) ?? dimensions[0]
  const search = useDesignJob(
    'dimension',
    { project, designId, ready },
    { dimensionId: dimension?.id ?? '', limitDb },
  )
  const [room, roomPx] = useRoom()
  const heightPx = figurePx(roomPx, AROUND_PX, LEAST_PX)
  const { answer, isCurrent } = search
  if (dimension === undefined) return null
  const curve = answer?.dimensionId === dimension.id ? answer.curve : null
  const { label, rule, paths } = dimension
  const unit = shownUnit(project, paths[0] ?? [], rule)
  const name = `${label.charAt(0).toUpperCase()}${label.slice(1)}`
  const figure =
    curve === null
      ? null
      : sizeCurveFigure(curve, limitDb, {
          name,
          unit: dimension.reading === undefined ? unitLabel(unit) : '',
          perCore: perCore(unit, rule),
        })
  const write = ({ best, now, band }: SizeCurve) =>
    editProject((draft) => {
      for (const path of paths) {
        const quantity = quantityAt(draft, path)
        if (quantity === undefined) continue
        const ratio = coreValue(quantity, rule) / now
        const follower = followerOf(draft, path)
        const follows = follower === null ? undefined : quantityAt(draft, follower.path)
        if (follower !== null && follows !== undefined) {
          setCoreValue(follows, rule, coreValue(follows, rule) + (best - now) * follower.perCore, DIGITS)
        }
        setCoreValue(quantity, rule, best * ratio, DIGITS)
        if (band === null) continue
        // The value was rounded; its tolerance must stay within the range all the same.
        const written = coreValue(quantity, rule) / ratio
        const half = Math.max(0, Math.min(written - band.from, band.to - written))
        setCoreHalfWidthWithin(quantity, rule, half * ratio, DIGITS)
        if (follower !== null && follows !== undefined) {
          setCoreHalfWidthWithin(follows, rule, half * ratio * follower.perCore, DIGITS)
        }
      }
    })
  return (
    <>
      {room}
      <section aria-label="Optimum part dimension">
        <h2>Optimum part dimension</h2>
        <div className="axis-choices screen-only">
          <ChoiceField
            label="Dimension"
            value={dimension.id}
            choices={dimensions.map((each) => ({ value: each.id, label: each.label }))}
            onChoose={setChosenId}
          />
          {curve !== null && (
            <button type="button" disabled={!isCurrent} onClick={() => write(curve)}>
              Apply optimum{curve.band === null ? '' : ' (with acceptable range as tolerance)'}
            </button>
          )}
        </div>
        <SearchLine label="Part dimension" search={search} />
        <div className={isCurrent ? undefined : 'stale'} style={{ minBlockSize: heightPx }}>
          {figure !== null && <FigureView figure={figure} heightPx={heightPx} />}
        </div>
        <p className="quiet">
          Unpinned parameters are re-optimised at each size, so the loss shown for the current size may be
          lower than in the budget.
        </p>
      </section>
    </>
  )
}
