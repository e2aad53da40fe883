// Searches over one design off the page.

import { jobRunner } from '../jobRunner'
import type { DesignJobs } from './designJobs'

export const runDesignJob = jobRunner<DesignJobs>(
  () => new Worker(new URL('./designWorker.ts', import.meta.url), { type: 'module' }),
  async () => (await import('./designJobs')).designJobs,
)
