// Searches over one design off the page.

import { jobRunner } from '../jobRunner'
import type { DesignJobs } from './designJobs'

export const runDesignJob = jobRunner<DesignJobs>(
  () => new Worker(new URL('./designWorker.ts', import.meta.url), { type: 'module' }),
  async () => {
    const { computeFitsHere } = await import('../../analysis/field/fit/fitHere')
    computeFitsHere() // as the worker does
    return (await import('./designJobs')).designJobs
  },
)
