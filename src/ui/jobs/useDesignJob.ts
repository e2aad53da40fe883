// A search over a design, run whenever what it depends on changes; the latest answers are remembered.

import { knownFits } from '../../analysis/field/fit/knownFits'
import type { DesignJobs } from '../../jobs/design/designJobs'
import type { Project } from '../../model/schema/project'
import { inputsOf } from '../../store/runs'
import { withSolvedFields } from '../../store/solvedFields'
import { type AnsweredJob, useJob } from './useJob'

type Request<K extends keyof DesignJobs> = Omit<Parameters<DesignJobs[K]>[0], 'project' | 'designId' | 'fits'>
type Answer<K extends keyof DesignJobs> = Awaited<ReturnType<DesignJobs[K]>>

export interface SearchedDesign {
  readonly project: Project
  readonly designId: string
  /** False while the joints of the design wait for their fits: the search begins once they are known. */
  readonly ready: boolean
}

/** A hand that drags slowly rests for a tenth of a second between two moves. */
const SETTLE_MS = 250
const MOST_REMEMBERED = 12

const remembered = new Map<string, unknown>()

function remember(key: string, answer: unknown): void {
  remembered.set(key, answer)
  const [oldest] = remembered.keys()
  if (remembered.size > MOST_REMEMBERED && oldest !== undefined) remembered.delete(oldest)
}

/** For one design and one kind of search: another design is another component. */
export function useDesignJob<K extends keyof DesignJobs>(
  name: K,
  { project, designId, ready }: SearchedDesign,
  request: Request<K>,
): AnsweredJob<Answer<K>> {
  const key = `${name} ${designId}\n${JSON.stringify(request)}\n${inputsOf(project, designId)}`
  return useJob<Answer<K>>({
    key,
    known: remembered.get(key) as Answer<K> | undefined,
    ready,
    settleMs: SETTLE_MS,
    work: async (signal, onProgress): Promise<Answer<K>> => {
      const { runDesignJob } = await import('../../jobs/design/designClient')
      // Readings of measurements are ignored, and may be large.
      const sent = { ...withSolvedFields(project), measurements: [] }
      const input = { ...request, project: sent, designId, fits: knownFits() }
      const answer = (await runDesignJob(name, input as never, { signal, onProgress })) as Answer<K>
      if (!signal.aborted) remember(key, answer)
      return answer
    },
  })
}
