// Reading a project file as a plain function: run by the worker, by tests, and on the page if workers are blocked.

import type { Result } from '../model/issue'
import { textReadingSteps } from '../model/project/parseProject'
import type { Project } from '../model/schema/project'
import type { ReportProgress } from './jobRunner'
import { runSteps } from './runSteps'

/** Shares of the work that are done once the text is there. */
const TEXT_THERE = 0.2

export const projectJobs = {
  /** Rejects where the file cannot be read at all: a folder, or one that has gone. */
  read: async (blob: Blob, report: ReportProgress): Promise<Result<Project>> => {
    report(0)
    return runSteps(textReadingSteps(await blob.text()), (share) =>
      report(TEXT_THERE + (1 - TEXT_THERE) * share),
    )
  },
}

export type ProjectJobs = typeof projectJobs
