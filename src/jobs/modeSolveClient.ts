// Cross-sections solved and swept off the page.

import { jobRunner } from './jobRunner'
import type { ModeJobs } from './modeSolveJobs'

export const runModeJob = jobRunner<ModeJobs>(
  () => new Worker(new URL('./modeSolveWorker.ts', import.meta.url), { type: 'module' }),
  async () => (await import('./modeSolveJobs')).modeJobs,
)
