import type { Measurement } from '../schema/measurement'

/** Characters that the readings of these measurements take in a project file. */
export function packedLength(measurements: readonly Measurement[]): number {
  const lengthOf = (measurement: Measurement) => {
    if (measurement.method === 'image') return measurement.pixels.base64.length
    if (measurement.method === 'repeated') return measurement.values.base64.length
    if (measurement.method === 'lot' || measurement.method === 'stress') {
      const { lossDb, returnLossDb, day, labels } = measurement.rows
      const exposure = measurement.method === 'stress' ? measurement.rows.exposure : undefined
      const numbers = [lossDb, returnLossDb, day, exposure].reduce(
        (sum, each) => sum + (each?.base64.length ?? 0),
        0,
      )
      return labels.reduce(
        (sum, { names, values }) => sum + values.base64.length + names.join().length,
        numbers,
      )
    }
    return measurement.columns.reduce((sum, column) => sum + column.values.base64.length, 0)
  }
  return measurements.reduce((sum, measurement) => sum + lengthOf(measurement), 0)
}
