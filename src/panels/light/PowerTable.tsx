// Power and peak irradiance from face to face, and where the light goes.

import { POWER_SHARES, type PowerFinding, type PowerLocation } from '../../analysis/results/lightResults'
import { KW_PER_CM2 } from '../../analysis/verdicts/lightVerdicts'
import { fixedText, plainText } from '../../numerics/numberText'

const three = (value: number) => plainText(value, 3)

function powerText(powerUw: number): string {
  if (powerUw >= 1e6) return `${three(powerUw / 1e6)} W`
  if (powerUw >= 1e3) return `${three(powerUw / 1e3)} mW`
  return powerUw >= 1 ? `${three(powerUw)} µW` : `${three(powerUw * 1e3)} nW`
}

function irradianceText(irradiance: number): string {
  const kw = irradiance * KW_PER_CM2
  return kw >= 1000 ? `${three(kw / 1000)} MW/cm²` : `${three(kw)} kW/cm²`
}

function limitText({ irradiance, limit }: PowerLocation): string {
  if (limit === null) return 'none set'
  const ratio = irradiance / limit.irradiance
  const share = ratio < 0.01 ? 'under 1 %' : `${fixedText(100 * ratio, 0)} %`
  return ratio > 1
    ? `exceeded: ${share} of the limit for ${limit.what}`
    : `${share} of the limit for ${limit.what}`
}

export function PowerTable({ power }: { readonly power: PowerFinding }) {
  return (
    <div className="wide-table">
      <table>
        <caption>Power along the path, nominal</caption>
        <thead>
          <tr>
            <th scope="col">Location</th>
            <th scope="col" className="number">
              Power
            </th>
            <th scope="col" className="number">
              1/e² diameters
            </th>
            <th scope="col" className="number">
              Peak irradiance
            </th>
            <th scope="col">Limit</th>
          </tr>
        </thead>
        <tbody>
          {power.locations.map((location) => (
            <tr key={`${location.elementId} ${location.label}`}>
              <th scope="row">{location.label}</th>
              <td className="number">{powerText(location.powerUw)}</td>
              <td className="number">
                {three(location.mfdXUm)} × {three(location.mfdYUm)} µm
              </td>
              <td className="number">{irradianceText(location.irradiance)}</td>
              <td>{limitText(location)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

/** Where the light that was launched goes. */
export function PowerBalance({ power }: { readonly power: PowerFinding }) {
  return (
    <table>
      <caption>Power balance of {powerText(power.inUw)}</caption>
      <tbody>
        {POWER_SHARES.map((name) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td className="number">{powerText(power.shares[name])}</td>
            <td className="number">{fixedText((100 * power.shares[name]) / power.inUw, 1)} %</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
