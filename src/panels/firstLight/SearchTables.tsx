// Capture ranges of every axis, and what the search and the climb take.

import type { HillClimb } from '../../analysis/firstLight/hillClimb'
import { type LateralSearch, rollCaptureRad, type SearchPlan } from '../../analysis/firstLight/search'
import { coreValue } from '../../model/quantity/quantity'
import type { Requirements } from '../../model/schema/requirements'
import type { SearchStation } from '../../model/words/searchStation'
import { countText, fixedText } from '../../numerics/numberText'
import { FactTable } from '../../ui/figures/FactTable'

const NAMES: Readonly<Record<SearchPlan['ranges'][number]['axis'], string>> = {
  offsetXUm: 'Offset x',
  offsetYUm: 'Offset y',
  gapUm: 'Gap',
  tiltXRad: 'Tilt x',
  tiltYRad: 'Tilt y',
  rollRad: 'Roll',
}
const DEG_PER_RAD = 180 / Math.PI
const SECONDS = { minute: 60, hour: 3600 } as const

function distanceText(axis: string, value: number | null): string {
  if (value === null) return '–'
  return axis.endsWith('Rad') ? `${fixedText(value * DEG_PER_RAD, 2)}°` : `${fixedText(value, 2)} µm`
}

function timeText(seconds: number): string {
  if (seconds < 2 * SECONDS.minute) return `${fixedText(seconds, 1)} s`
  return seconds < 2 * SECONDS.hour
    ? `${fixedText(seconds / SECONDS.minute, 1)} min`
    : `${fixedText(seconds / SECONDS.hour, 1)} h`
}

export function CaptureTable({ plan }: { readonly plan: SearchPlan }) {
  return (
    <>
      <table>
        <caption>Capture range, each axis alone from the working point</caption>
        <thead>
          <tr>
            <th scope="col">Axis</th>
            <th scope="col" className="number">
              Below
            </th>
            <th scope="col" className="number">
              Above
            </th>
          </tr>
        </thead>
        <tbody>
          {plan.ranges.map(({ axis, below, above }) => (
            <tr key={axis}>
              <th scope="row">{NAMES[axis]}</th>
              <td className="number">{distanceText(axis, below)}</td>
              <td className="number">{distanceText(axis, above)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="quiet">
        –: the signal stays detectable within the range examined (gap 0 to 50 mm, tilt ± 46°, roll ± 90°).
      </p>
    </>
  )
}

export function SearchTable({
  search,
  climb,
  station,
  requirements,
}: {
  readonly search: LateralSearch
  readonly climb: HillClimb
  readonly station: SearchStation
  readonly requirements: Requirements
}) {
  const { raster, spiral } = search
  const effortText = (count: number, what: 'points' | 'readings') =>
    `${countText(Math.ceil(count))} ${what}, ${timeText(count * station.secondsPerPoint)}`
  const roll = rollCaptureRad(
    search.captureYUm,
    requirements.channels,
    coreValue(requirements.pitch, 'pitch'),
  )
  return (
    <FactTable
      caption="Search"
      rows={[
        [
          'Largest step, x × y',
          `${fixedText(Math.SQRT2 * search.captureXUm, 1)} × ${fixedText(Math.SQRT2 * search.captureYUm, 1)} µm`,
        ],
        ['Step used, x × y', `${fixedText(search.stepXUm, 1)} × ${fixedText(search.stepYUm, 1)} µm`],
        ['Raster, at most', effortText(raster.most, 'points')],
        ['Raster, mean', effortText(raster.mean, 'points')],
        ['Spiral, at most', effortText(spiral.most, 'points')],
        ['Spiral, mean', effortText(spiral.mean, 'points')],
        ['Hill climb, mean readings', effortText(climb.meanReadings, 'readings')],
        ['Hill climb, 95 % of climbs', effortText(climb.p95Readings, 'readings')],
        ['Within 0.1 dB of the optimum', `${fixedText(100 * climb.arrived, 1)} % of climbs`],
        ...(roll === null
          ? []
          : [
              ['Roll capture of outer channels', `± ${fixedText(roll * DEG_PER_RAD, 2)}°`] as const,
              [
                'Roll positions to try',
                countText(Math.max(1, Math.ceil(station.rollDeg / (roll * DEG_PER_RAD)))),
              ] as const,
            ]),
      ]}
    />
  )
}
