// The jobs of the measurements, run off the page.

import { jobRunner } from './jobRunner'
import type { MeasureJobs } from './measureJobs'

export const runMeasureJob = jobRunner<MeasureJobs>(
  () => new Worker(new URL('./measureWorker.ts', import.meta.url), { type: 'module' }),
  async () => (await import('./measureJobs')).measureJobs,
)
