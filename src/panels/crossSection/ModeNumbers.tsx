// The numbers of a solved mode, and how they settle as cells halve.

import type { FacetMode } from '../../analysis/crossSection/facetMode'
import { lossDb } from '../../optics/index'
import { fixed, significant } from '../measurements/benchText'
import { type FactRow, FactTable } from '../measurements/FactTable'

function leakageText({ leakage }: FacetMode): string {
  if (leakage === null) return 'none: slower than light in the substrate'
  if (leakage.dbPerMm < 0.001) return 'below 0.001 dB/mm'
  return `about ${significant(leakage.dbPerMm, 2)} dB/mm`
}

export function ModeNumbers({ mode }: { readonly mode: FacetMode }) {
  const { widths, levels, mfdErrorEstimateUm, fibreLoss } = mode
  const definitions = [
    ['Best Gaussian', widths.gaussian.mfdUm],
    ['Second moment, D4σ', widths.secondMomentUm],
    ['Petermann II, far field into air', widths.petermann2Um],
    ['1/e² of the cuts through the peak', widths.cutUm],
  ] as const
  const facts: readonly FactRow[] = [
    ['Effective index', `${fixed(mode.effectiveIndex, 5)} ± ${mode.indexErrorEstimate.toExponential(0)}`],
    ['Above cut-off by', significant(mode.effectiveIndex - mode.cutOffIndex, 3)],
    ['In the cores', `${fixed(100 * mode.coreShare, 1)} % of |E|²`],
    ['Leading component', `${fixed(100 * mode.leadingShare, 2)} % of |E|²`],
    [
      'In its best Gaussian',
      `${fixed(100 * widths.gaussian.overlap, 2)} %, ${fixed(lossDb(widths.gaussian.overlap), 2)} dB`,
    ],
    ['Leakage into the substrate', leakageText(mode)],
    ...(fibreLoss === null
      ? []
      : ([
          ['Loss to the fibre by the field', `${fixed(fibreLoss.fieldDb, 2)} dB`],
          ['Loss by the two best Gaussians', `${fixed(fibreLoss.gaussianDb, 2)} dB`],
          ['Difference', `${fixed(fibreLoss.fieldDb - fibreLoss.gaussianDb, 2)} dB`],
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
              <td className="number">{fixed(x, 3)}</td>
              <td className="number">{fixed(y, 3)}</td>
            </tr>
          ))}
          <tr>
            <th scope="row">Left open by the grid, about</th>
            <td className="number">± {fixed(mfdErrorEstimateUm.x, 3)}</td>
            <td className="number">± {fixed(mfdErrorEstimateUm.y, 3)}</td>
          </tr>
        </tbody>
      </table>
      <FactTable caption="The mode" rows={facts} />
      <table className="facts">
        <caption>As cells halve: best-Gaussian MFD, µm</caption>
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
              <td className="number">{fixed(level.effectiveIndex, 5)}</td>
              <td className="number">{fixed(level.mfdXUm, 3)}</td>
              <td className="number">{fixed(level.mfdYUm, 3)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
