// The numbers of a solved mode, and how they converge on finer grids.

import type { FacetMode } from '../../../analysis/crossSection/facetMode'
import { exponentText, fixedText, plainText } from '../../../numerics/numberText'
import { lossDb } from '../../../optics/index'
import { type FactRow, FactTable } from '../../../ui/figures/FactTable'

function leakageText({ leakage }: FacetMode): string {
  if (leakage === null) return 'none (effective index above substrate index)'
  if (leakage.dbPerMm < 0.001) return '< 0.001 dB/mm'
  return `≈ ${plainText(leakage.dbPerMm, 2)} dB/mm`
}

export function ModeNumbers({ mode }: { readonly mode: FacetMode }) {
  const { widths, levels, mfdErrorEstimateUm, fibreLoss } = mode
  const definitions = [
    ['Best-fit Gaussian', widths.gaussian.mfdUm],
    ['Second moment, D4σ', widths.secondMomentUm],
    ['Petermann II, far field into air', widths.petermann2Um],
    ['1/e² width through the peak', widths.cutUm],
  ] as const
  const facts: readonly FactRow[] = [
    ['Effective index', `${fixedText(mode.effectiveIndex, 5)} ± ${exponentText(mode.indexErrorEstimate, 0)}`],
    ['Index above cut-off', plainText(mode.effectiveIndex - mode.cutOffIndex, 3)],
    ['Confinement in the cores', `${fixedText(100 * mode.coreShare, 1)} % of |E|²`],
    ['Dominant field component', `${fixedText(100 * mode.leadingShare, 2)} % of |E|²`],
    [
      'Overlap with best-fit Gaussian',
      `${fixedText(100 * widths.gaussian.overlap, 2)} %, ${fixedText(lossDb(widths.gaussian.overlap), 2)} dB`,
    ],
    ['Substrate leakage', leakageText(mode)],
    ...(fibreLoss === null
      ? []
      : ([
          ['Coupling loss, field overlap', `${fixedText(fibreLoss.fieldDb, 2)} dB`],
          ['Coupling loss, best-fit Gaussians', `${fixedText(fibreLoss.gaussianDb, 2)} dB`],
          ['Difference', `${fixedText(fibreLoss.fieldDb - fibreLoss.gaussianDb, 2)} dB`],
        ] as const)),
  ]
  return (
    <div>
      <table className="facts">
        <caption>Mode-field diameters, µm</caption>
        <thead>
          <tr>
            <th scope="col">Definition</th>
            <th scope="col">x</th>
            <th scope="col">y</th>
          </tr>
        </thead>
        <tbody>
          {definitions.map(([name, { x, y }]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td className="number">{fixedText(x, 3)}</td>
              <td className="number">{fixedText(y, 3)}</td>
            </tr>
          ))}
          <tr>
            <th scope="row">Estimated discretisation error</th>
            <td className="number">± {fixedText(mfdErrorEstimateUm.x, 3)}</td>
            <td className="number">± {fixedText(mfdErrorEstimateUm.y, 3)}</td>
          </tr>
        </tbody>
      </table>
      <FactTable caption="Mode" rows={facts} />
      <table className="facts">
        <caption>Grid convergence: best-fit Gaussian MFD, µm</caption>
        <thead>
          <tr>
            <th scope="col">Cells</th>
            <th scope="col">Effective index</th>
            <th scope="col">x</th>
            <th scope="col">y</th>
          </tr>
        </thead>
        <tbody>
          {levels.map((level) => (
            <tr key={level.nx}>
              <th scope="row">
                {level.nx} x {level.ny}
              </th>
              <td className="number">{fixedText(level.effectiveIndex, 5)}</td>
              <td className="number">{fixedText(level.mfdXUm, 3)}</td>
              <td className="number">{fixedText(level.mfdYUm, 3)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
