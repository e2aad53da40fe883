// Capture ranges of every axis, and what the search and the climb take.

import type { HillClimb } from '../../analysis/firstLight/hillClimb'
import { rollCaptureRad, type SearchPlan } from '../../analysis/firstLight/search'
import { coreValue } from '../../model/quantity/quantity'
import type { Requirements } from '../../model/schema/requirements'
import type { SearchStation } from '../../model/words/searchStation'
import { countText, fixedText, significantText } from '../../numerics/numberText'
import { type FactRow, FactTable } from '../../ui/figures/FactTable'

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
  if (axis.endsWith('Rad')) return `${fixedText(value * DEG_PER_RAD, 2)}°`
  return value < 1000 ? `${fixedText(value, 2)} µm` : `${countText(Math.round(value))} µm`
}

function timeText(seconds: number): string {
  if (seconds < 2 * SECONDS.minute)
    return `${seconds < 10 ? significantText(seconds, 2) : fixedText(seconds, 0)} s`
  return seconds < 2 * SECONDS.hour
    ? `${fixedText(seconds / SECONDS.minute, 1)} min`
    : `${fixedText(seconds / SECONDS.hour, 1)} h`
}

/** A plan with the climb that follows it; null where nothing is seen even on axis. */
export interface FoundSearch {
  readonly plan: SearchPlan
  readonly climb: HillClimb | null
}

export function CaptureTable({
  plan,
  gaussian,
}: {
  readonly plan: SearchPlan
  /** By Gaussians, where the plan is by fields. */
  readonly gaussian: SearchPlan | null
}) {
  const besideOf = (axis: string) => gaussian?.ranges.find((range) => range.axis === axis)
  return (
    <table>
      <caption>Capture range, each axis alone from the working point</caption>
      <thead>
        <tr>
          <th scope="col">Axis</th>
          <th scope="col" className="number">
            Negative side
          </th>
          <th scope="col" className="number">
            Positive side
          </th>
        </tr>
      </thead>
      <tbody>
        {plan.ranges.map(({ axis, below, above }) => {
          const beside = besideOf(axis)
          return (
            <tr key={axis}>
              <th scope="row">{NAMES[axis]}</th>
              <td className="number">
                {besideText(distanceText(axis, below), beside && distanceText(axis, beside.below))}
              </td>
              <td className="number">
                {besideText(distanceText(axis, above), beside && distanceText(axis, beside.above))}
              </td>
            </tr>
          )
        })}
      </tbody>
    </table>
  )
}

/** A text with that of Gaussians in brackets, where there is one that differs. */
const besideText = (text: string, gaussian: string | undefined): string =>
  gaussian === undefined || gaussian === text ? text : `${text} (Gaussian ${gaussian})`

function searchRows(
  { plan: { search }, climb }: FoundSearch,
  station: SearchStation,
  requirements: Requirements,
): readonly FactRow[] {
  if (search === null || climb === null) return []
  const { raster, spiral } = search
  const timed = (count: number, noun: 'points' | 'readings') =>
    `${countText(Math.ceil(count))} ${noun}, ${timeText(count * station.secondsPerPoint)}`
  const roll = rollCaptureRad(
    search.captureYUm,
    requirements.channels,
    coreValue(requirements.pitch, 'pitch'),
  )
  return [
    [
      'Largest step, x × y',
      `${fixedText(Math.SQRT2 * search.captureXUm, 1)} × ${fixedText(Math.SQRT2 * search.captureYUm, 1)} µm`,
    ],
    ['Step used, x × y', `${fixedText(search.stepXUm, 1)} × ${fixedText(search.stepYUm, 1)} µm`],
    ['Raster, maximum', timed(raster.most, 'points')],
    ['Raster, mean', timed(raster.mean, 'points')],
    ['Spiral, maximum', timed(spiral.most, 'points')],
    ['Spiral, mean', timed(spiral.mean, 'points')],
    ['Hill climb, mean', timed(climb.meanReadings, 'readings')],
    ['Hill climb, 95 % of climbs', timed(climb.p95Readings, 'readings')],
    ['Within 0.1 dB of the optimum', `${fixedText(100 * climb.arrived, 1)} % of climbs`],
    ...(roll === null
      ? []
      : [
          ['Roll capture range, outer channels', `± ${fixedText(roll * DEG_PER_RAD, 2)}°`] as const,
          [
            'Roll positions to try',
            countText(Math.max(1, Math.ceil(station.rollDeg / (roll * DEG_PER_RAD)))),
          ] as const,
        ]),
  ]
}

export function SearchTable({
  found,
  gaussian,
  station,
  requirements,
}: {
  readonly found: FoundSearch
  /** By Gaussians, where the search is by fields. */
  readonly gaussian: FoundSearch | null
  readonly station: SearchStation
  readonly requirements: Requirements
}) {
  const beside = new Map(gaussian === null ? [] : searchRows(gaussian, station, requirements))
  return (
    <FactTable
      caption="Search"
      rows={searchRows(found, station, requirements).map(
        ([name, text]): FactRow => [name, besideText(text, beside.get(name))],
      )}
    />
  )
}
