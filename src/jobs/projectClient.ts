// Large project files, read off the page.

import { jobRunner } from './jobRunner'
import type { ProjectJobs } from './projectJobs'

export const runProjectJob = jobRunner<ProjectJobs>(
  () => new Worker(new URL('./projectWorker.ts', import.meta.url), { type: 'module' }),
  async () => (await import('./projectJobs')).projectJobs,
  { keepsWarm: false },
)
