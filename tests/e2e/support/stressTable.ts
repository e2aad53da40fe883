// Readings of a stress test, as an engineer would type them: four assemblies over 2000 hours, drifting with the square root of time.

export const STRESS_HOURS = [0, 250, 500, 1000, 2000] as const
/** dB for each square root of an hour, of the mean of the assemblies. */
export const STRESS_RATE_DB = 0.004
const RATES = [0.95, 1, 1.05, 1] as const

export const STRESS_TABLE = [
  'Assembly, Hours, Loss dB',
  ...RATES.flatMap((rate, i) =>
    STRESS_HOURS.map(
      (t) => `S${i + 1}, ${t}, ${(0.7 + 0.1 * i + STRESS_RATE_DB * rate * Math.sqrt(t)).toFixed(5)}`,
    ),
  ),
].join('\n')
