// The numbers of the station that a search for first light is planned with: what each may be, and its initial
// value (common practice, no source).

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

export type StationName = (typeof STATION_FIELDS)[number]['name']
export type SearchStation = Readonly<Record<StationName, number>>

/** The station with what was entered of it. */
export function searchStation(
  entered: { readonly [Name in StationName]?: number | undefined } = {},
): SearchStation {
  const numbers = STATION_FIELDS.map(({ name, first }) => [name, entered[name] ?? first])
  return Object.fromEntries(numbers) as SearchStation
}
