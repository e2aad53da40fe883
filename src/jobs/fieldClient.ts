// Fields of joints off the page.

import type { FieldJobs } from './fieldJobs'
import { jobRunner } from './jobRunner'

export const runFieldJob = jobRunner<FieldJobs>(
  () => new Worker(new URL('./fieldWorker.ts', import.meta.url), { type: 'module' }),
  async () => (await import('./fieldJobs')).fieldJobs,
)
