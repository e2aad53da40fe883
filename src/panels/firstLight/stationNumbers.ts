// The numbers of the station that a search is planned with. They are the engineer's, stay for the session and are not part of the
// project. What they begin with is common practice, no source.

import { create } from 'zustand'

export const STATION_FIELDS = [
  { name: 'launchDbm', label: 'Launch power, dBm', first: 0, range: [-60, 40] },
  { name: 'detectorFloorDbm', label: 'Detector floor, dBm', first: -60, range: [-120, 20] },
  { name: 'lateralUm', label: 'Lateral accuracy, ± µm', first: 50, range: [0.01, 100_000] },
  { name: 'axialUm', label: 'Axial accuracy, ± µm', first: 20, range: [0.01, 10_000] },
  { name: 'tiltDeg', label: 'Tilt accuracy, ± °', first: 0.5, range: [0.001, 20] },
  { name: 'rollDeg', label: 'Roll accuracy, ± °', first: 0.5, range: [0.001, 90] },
  { name: 'secondsPerPoint', label: 'Time per point, s', first: 0.05, range: [0.0001, 1000] },
] as const satisfies readonly {
  readonly name: string
  readonly label: string
  readonly first: number
  readonly range: readonly [number, number]
}[]

type StationName = (typeof STATION_FIELDS)[number]['name']
export type StationState = Readonly<Record<StationName, number>>

export const useStation = create<StationState>(
  () => Object.fromEntries(STATION_FIELDS.map(({ name, first }) => [name, first])) as StationState,
)
