// The loss of the on-chip taper from its modes: against the tip's width and the length; applied to the facet, or entered as before.

import { useMemo } from 'react'
import {
  lossOverLength,
  lossOverTip,
  type TaperRequest,
  taperLossDb,
} from '../../../analysis/crossSection/taperChain'
import { taperLossFigure } from '../../../figures/field/taperLoss'
import { coreValue, quantityOf } from '../../../model/quantity/quantity'
import type { CrossSectionEntry } from '../../../model/schema/crossSection'
import type { FacetEntry } from '../../../model/schema/parts'
import { byId } from '../../../model/words/byId'
import { TAPER_PROFILES } from '../../../model/words/parts'
import { fixedText, nmOf, plainText, rounded } from '../../../numerics/numberText'
import { answers, startModeRun, useModeRun } from '../../../store/modeRuns'
import { editProject } from '../../../store/workbench'
import { ChoiceField } from '../../../ui/fields/ChoiceField'
import { OptionalQuantity } from '../../../ui/fields/OptionalQuantity'
import { FigureView } from '../../../ui/figures/FigureView'
import { ModeRunLine } from './ModeRunLine'

const FIGURE_PX = 260
const EXPONENTS = { linear: 1, quadratic: 2 } as const
/** An estimate that is within half of its value (docs/physics.md). */
const DOUBT = 0.5

export function TaperPanel({
  facet,
  section,
  request,
}: {
  readonly facet: FacetEntry
  readonly section: CrossSectionEntry
  readonly request: Pick<TaperRequest, 'wavelengthUm' | 'cells'>
}) {
  const run = useModeRun('taper', facet.id)
  const edit = (change: (own: FacetEntry) => void) =>
    editProject((draft) => {
      const own = byId(draft.facets, facet.id)
      if (own !== undefined) change(own)
    })
  const { routingWidth, taperLength, taperProfile = 'linear' } = facet
  const [core] = section.cores
  const tipUm = core === undefined ? 0 : coreValue(core.width, 'guideSize')
  const routingUm = routingWidth === undefined ? null : coreValue(routingWidth, 'guideSize')
  const lengthUm = taperLength === undefined ? null : coreValue(taperLength, 'taperLength')
  const wanted =
    routingUm === null
      ? null
      : { section, wavelengthUm: request.wavelengthUm, cells: request.cells, tipUm, routingUm }
  const chain = run.finished?.result ?? null
  const exponent = EXPONENTS[taperProfile]
  const found = useMemo(() => {
    if (chain === null || lengthUm === null) return null
    const shape = { lengthUm, exponent }
    return {
      lossDb: taperLossDb(chain, shape),
      overTip: lossOverTip(chain, shape),
      overLength: lossOverLength(chain, shape),
    }
  }, [chain, lengthUm, exponent])
  const stale = wanted === null || !answers(run, wanted)
  const { polarisation } = section
  const ofTm = polarisation === 'TM' && facet.tm !== undefined
  const words = (lossDb: number) =>
    `${fixedText(lossDb, 2)} dB for a tip width of ${plainText(tipUm, 4)} µm, a length of ${plainText(lengthUm ?? 0, 4)} µm and a ${taperProfile} profile`
  const apply = () =>
    edit((own) => {
      if (found === null) return
      const lossDb = rounded(found.lossDb, 3)
      const doubtDb = rounded(DOUBT * lossDb, 2)
      // A separate tolerance: that of an entered value may be wider than this loss.
      const computed = {
        ...quantityOf(lossDb, 'dB', 'computed', doubtDb > 0 ? doubtDb : undefined),
        note: `Local modes along the taper, quasi-${polarisation} at ${nmOf(request.wavelengthUm)} nm, length ${plainText(lengthUm ?? 0, 4)} µm, ${taperProfile} profile; an estimate.`,
      }
      if (ofTm && own.tm !== undefined) own.tm.taperLoss = computed
      else own.taperLoss = computed
    })
  return (
    <section aria-label="Taper">
      <h2>Taper</h2>
      <div className="run-settings quantities">
        <OptionalQuantity
          label="Routing width"
          rule="guideSize"
          quantity={routingWidth}
          first={() => quantityOf(rounded(3 * tipUm, 3), 'um')}
          find={(draft) => byId(draft.facets, facet.id)}
          field="routingWidth"
        />
        <OptionalQuantity
          label="Taper length"
          rule="taperLength"
          quantity={taperLength}
          first={() => quantityOf(200, 'um')}
          find={(draft) => byId(draft.facets, facet.id)}
          field="taperLength"
        />
        <ChoiceField
          label="Taper profile"
          value={taperProfile}
          choices={TAPER_PROFILES.map((value) => ({ value, label: value }))}
          onChoose={(value) =>
            edit((own) => {
              own.taperProfile = value === 'linear' ? undefined : 'quadratic'
            })
          }
        />
      </div>
      {wanted === null || lengthUm === null ? (
        <p className="quiet">
          Enter the routing width and the taper length to solve for the modes along the taper.
        </p>
      ) : (
        <ModeRunLine
          kind="taper"
          facetId={facet.id}
          label="Solve along the taper"
          onStart={() => void startModeRun('taper', facet.id, wanted)}
        />
      )}
      {found !== null && (
        <div className={stale ? 'stale' : undefined}>
          {stale && (
            <p className="stale-note">Out of date: inputs have changed. Solve along the taper again.</p>
          )}
          <p>
            <strong>{`Taper loss ${words(found.lossDb)}.`}</strong>{' '}
            <button type="button" onClick={apply} disabled={stale}>
              Apply taper loss
            </button>
          </p>
          <div className="plots">
            <FigureView
              figure={taperLossFigure(
                { id: 'taper-tip', name: 'Tip width', points: found.overTip, now: tipUm },
                `Taper loss against tip width, for a length of ${plainText(lengthUm ?? 0, 4)} µm and a ${taperProfile} profile.`,
              )}
              heightPx={FIGURE_PX}
            />
            <FigureView
              figure={taperLossFigure(
                { id: 'taper-length', name: 'Taper length', points: found.overLength, now: lengthUm ?? 0 },
                `Taper loss against length, for a tip width of ${plainText(tipUm, 4)} µm and a ${taperProfile} profile.`,
              )}
              heightPx={FIGURE_PX}
            />
          </div>
          <p className="quiet">
            Estimate from the modes along the taper, quasi-{polarisation}: the scattered power is assumed to
            radiate at the cladding index, which is usually pessimistic (0.95 to 1.5 times the loss in dB from
            beam propagation). Substrate leakage, roughness and bends are not included.
          </p>
        </div>
      )}
    </section>
  )
}
