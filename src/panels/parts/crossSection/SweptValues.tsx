// The values of a sweep as rows to choose from; the chosen one is applied to the facet or end as one undo step.

import type { FacetModeNumbers } from '../../../analysis/crossSection/facetMode'
import type { SweepPoint, SweepResult } from '../../../analysis/crossSection/modeSweep'
import type { SweepChoice } from '../../../analysis/crossSection/sweepVariable'
import type { CrossSectionEntry } from '../../../model/schema/crossSection'
import { fixedText, plainText } from '../../../numerics/numberText'
import { editProject } from '../../../store/workbench'
import type { SectionOwner } from './sectionOwner'
import { solvedQuantities } from './takeMode'

function leakageText({ leakage }: FacetModeNumbers): string {
  if (leakage === null) return 'none'
  return `${plainText(leakage.dbPerMm, 2)}`
}

export function SweptValues({
  owner,
  section,
  choice,
  unit,
  result,
  chosen,
  onChoose,
}: {
  readonly owner: SectionOwner
  readonly section: CrossSectionEntry
  readonly choice: SweepChoice
  readonly unit: { readonly label: string; readonly size: number }
  readonly result: SweepResult
  readonly chosen: number | null
  readonly onChoose: (value: number) => void
}) {
  const point = chosen === null ? undefined : result.points.find((each) => each.value === chosen)
  const { best } = result
  const shown = (value: number) => `${plainText(value / unit.size, 4)} ${unit.label}`
  const isSize = choice.variable.kind !== 'wavelength'
  const take = (taken: SweepPoint) =>
    editProject((draft) => {
      const { numbers } = taken
      if (numbers === null) return
      owner.applySwept(draft, choice.variable, taken.value)
      owner.apply(draft, (before) =>
        solvedQuantities(before, numbers, 'best-fit Gaussian', section.polarisation),
      )
    })
  return (
    <>
      {isSize && (
        <p className="part-actions">
          <button
            type="button"
            className="primary"
            disabled={point?.numbers == null}
            onClick={() => point !== undefined && take(point)}
          >
            {point === undefined
              ? 'Select a row to apply it'
              : `Apply ${shown(point.value)} and its mode to ${owner.name}`}
          </button>
          {best !== null && best.value !== chosen && (
            <button type="button" onClick={() => onChoose(best.value)}>
              Select optimum ({shown(best.value)})
            </button>
          )}
        </p>
      )}
      <div className="wide-table">
        <table className="swept">
          <caption>Sweep results; MFD from best-fit Gaussian</caption>
          <thead>
            <tr>
              <th scope="col">{choice.label.charAt(0).toUpperCase() + choice.label.slice(1)}</th>
              <th scope="col">Effective index</th>
              <th scope="col">MFD x, µm</th>
              <th scope="col">MFD y, µm</th>
              <th scope="col">Overlap with best-fit Gaussian</th>
              <th scope="col">Coupling loss, field</th>
              <th scope="col">Coupling loss, Gaussian</th>
              <th scope="col">Leakage, dB/mm</th>
            </tr>
          </thead>
          <tbody>
            {result.points.map(({ value, numbers, message }, at) => (
              <tr
                key={value}
                className={value === chosen ? 'chosen' : undefined}
                data-best={value === best?.value ? 'true' : undefined}
              >
                <th scope="row">
                  {numbers !== null && isSize ? (
                    <button type="button" aria-pressed={value === chosen} onClick={() => onChoose(value)}>
                      {shown(value)}
                    </button>
                  ) : (
                    shown(value)
                  )}
                </th>
                {numbers === null ? (
                  <td colSpan={7} className="quiet reason">
                    {message === result.points[at - 1]?.message ? 'As above.' : message}
                  </td>
                ) : (
                  <>
                    <td className="number">{fixedText(numbers.effectiveIndex, 5)}</td>
                    <td className="number">{fixedText(numbers.widths.gaussian.mfdUm.x, 3)}</td>
                    <td className="number">{fixedText(numbers.widths.gaussian.mfdUm.y, 3)}</td>
                    <td className="number">{fixedText(100 * numbers.widths.gaussian.overlap, 1)} %</td>
                    <td className="number">
                      {numbers.fibreLoss === null ? '' : `${fixedText(numbers.fibreLoss.fieldDb, 2)} dB`}
                    </td>
                    <td className="number">
                      {numbers.fibreLoss === null ? '' : `${fixedText(numbers.fibreLoss.gaussianDb, 2)} dB`}
                    </td>
                    <td className="number">{leakageText(numbers)}</td>
                  </>
                )}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </>
  )
}
