// How misaligned axes reduce the extinction ratio of a linear state, joint by joint and in series.

import type { Extinction } from '../../analysis/light/extinction'
import { fixedText } from '../../numerics/numberText'
import { extinctionRatioDb } from '../../optics/index'

const DEG = 180 / Math.PI
const GREATEST_DB = 100

const ratio = (db: number) => (db > GREATEST_DB ? `> ${GREATEST_DB} dB` : `${fixedText(db, 1)} dB`)
const degrees = (rad: number) => `${fixedText(rad * DEG, 2)}°`

export function ExtinctionTable({ found }: { readonly found: Extinction }) {
  const { joins, loose, unknown, nominal, atTolerance } = found
  if (loose.length > 0) {
    return (
      <p data-fact="loose">
        This path is not polarisation-maintaining because of {loose.join(', ')}: the output state of
        polarisation is unknown. A polarisation controller or polarisation-maintaining fibre is required.
      </p>
    )
  }
  return (
    <>
      <table>
        <thead>
          <tr>
            <th scope="col">Joint</th>
            <th scope="col" className="number">
              Angle
            </th>
            <th scope="col" className="number">
              At tolerance limit
            </th>
            <th scope="col" className="number">
              Extinction ratio
            </th>
          </tr>
        </thead>
        <tbody>
          {joins.map((join) => (
            <tr key={join.elementId}>
              <th scope="row">{join.label}</th>
              <td className="number">{join.angleRad === null ? 'not given' : degrees(join.angleRad)}</td>
              <td className="number">{join.greatestRad === null ? '' : degrees(join.greatestRad)}</td>
              <td className="number">
                {join.greatestRad === null ? '' : ratio(extinctionRatioDb(join.greatestRad))}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {nominal === null || atTolerance === null ? (
        <p>Total not evaluated: no key angle given for: {unknown.join(', ')}.</p>
      ) : (
        <dl className="light-facts">
          <dt>In series, incoherent</dt>
          <dd>
            {ratio(atTolerance.incoherentDb)} at the tolerance limits, {ratio(nominal.incoherentDb)} nominal
          </dd>
          <dt>In series, worst-case phase</dt>
          <dd data-fact="extinction">
            {ratio(atTolerance.worstDb)} at the tolerance limits, {ratio(nominal.worstDb)} nominal
          </dd>
        </dl>
      )}
    </>
  )
}
