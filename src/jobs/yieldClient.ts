// A yield run by a crew: blocks are handed out as members fall idle, rounds end at fixed milestones, tallies are added
// by block. So the result depends on project and plan only, not on who did what when.

import type { Ranking } from '../analysis/yield/ranking'
import { knownWellEnough, milestones, type YieldPlan } from '../analysis/yield/runYield'
import { addTallies, emptyTally, type Tally } from '../analysis/yield/tally'
import type { YieldResult } from '../analysis/yield/yieldResult'
import type { Project } from '../model/schema/project'
import { type CrewMember, pageMember } from './crewMember'
import { isWorkerLoss } from './workerLife'
import { workerMember } from './workerMember'
import { yieldJobs } from './yieldJobs'

/** Blocks of one assignment: some ten milliseconds of work, so that progress moves and cancelling is prompt. */
const BLOCKS_A_JOB = 8
const MOST_WORKERS = 8

export interface RunOptions {
  readonly signal: AbortSignal
  /** Share of the work done, 0 to 1. */
  readonly onProgress: (share: number) => void
  readonly size: number
  readonly newMember: () => CrewMember
  /** Takes over where a hired member cannot be prepared because workers are blocked. */
  readonly fallbackMember: () => CrewMember
}

/** Workers that leave the page a core of its own where there are more than two. */
export function crewSize(cores: number): number {
  return Math.min(MOST_WORKERS, cores > 2 ? cores - 1 : Math.max(1, cores))
}

/** The crew of this browser: workers, or the page in slices where there are none. */
export const BROWSER_CREW: Pick<RunOptions, 'newMember' | 'fallbackMember'> = {
  newMember: () => {
    try {
      return workerMember()
    } catch {
      return pageMember()
    }
  },
  fallbackMember: pageMember,
}

export type Job<T> = (member: CrewMember) => Promise<T>

/** One seat of the crew. Its member is replaced once if it fails; a second failure is the run's. */
function crewSeat(
  project: Project,
  plan: YieldPlan,
  { signal, newMember, fallbackMember }: Pick<RunOptions, 'signal' | 'newMember' | 'fallbackMember'>,
) {
  let member: CrewMember | null = null
  let replaced = false
  const ready = async (): Promise<CrewMember> => {
    if (member !== null) return member
    const fresh = newMember()
    member = fresh
    try {
      await fresh.prepare(project, plan)
      return fresh
    } catch (failure) {
      signal.throwIfAborted()
      if (isWorkerLoss(failure)) throw failure // what ended a worker at work would end the page too
      fresh.stop()
      const other = fallbackMember()
      member = other
      await other.prepare(project, plan)
      return other
    }
  }
  const attempt = async <T>(job: Job<T>): Promise<T> => {
    signal.throwIfAborted()
    return job(await ready())
  }
  return {
    stop: () => member?.stop(),
    run: async <T>(job: Job<T>): Promise<T> => {
      try {
        return await attempt(job)
      } catch (failure) {
        signal.throwIfAborted()
        member?.stop()
        member = null
        if (replaced) throw failure
        replaced = true
        return attempt(job)
      }
    },
  }
}

/**
 * The result, equal to that of `runYield` with the same plan. Rejects with the signal's reason when aborted, and with the
 * failure of a worker that broke twice in the same seat.
 */
export async function runYieldCrew(
  project: Project,
  plan: YieldPlan,
  options: RunOptions,
): Promise<YieldResult> {
  const jobs = yieldJobs(project, plan)
  const seats = Array.from({ length: options.size }, () => crewSeat(project, plan, options))
  const stopAll = () => {
    for (const seat of seats) seat.stop()
  }
  options.signal.addEventListener('abort', stopAll)
  const ends = milestones(plan.samples)
  const allBlocks = ends.at(-1) ?? 1
  let done = 0
  try {
    // The ranking goes first where another member can begin with the blocks, so that it does not add to their time.
    let ranking: Promise<Ranking> | null = null
    const rank = () =>
      (ranking ??= seats[0]?.run((member) => member.ranking()) ?? Promise.reject(new Error('no crew')))
    if (seats.length > 1) rank().catch(() => undefined)
    let tally = emptyTally()
    let first = 0
    for (const end of ends) {
      let sum: Tally = tally
      let next = first
      const work = async (seat: (typeof seats)[number], at: number) => {
        if (at === 0 && ranking !== null) await ranking
        while (next < end) {
          const from = next
          const to = Math.min(end, from + BLOCKS_A_JOB)
          next = to
          const part = await seat.run((member) => member.blocks(from, to))
          sum = addTallies(sum, part) // whoever comes first: counts are whole numbers, sums stay by block
          done += to - from
          options.onProgress(done / allBlocks)
        }
      }
      await Promise.all(seats.map(work))
      tally = sum
      first = end
      if (knownWellEnough(tally, plan)) break
    }
    return jobs.finish(tally, await rank())
  } finally {
    options.signal.removeEventListener('abort', stopAll)
    stopAll()
  }
}

/** One job by one member, which is replaced once if it fails: sharing out, or an array. */
export async function runJob<T>(
  project: Project,
  plan: YieldPlan,
  job: Job<T>,
  options: Pick<RunOptions, 'signal' | 'newMember' | 'fallbackMember'>,
): Promise<T> {
  yieldJobs(project, plan) // a candidate that cannot be computed is refused before any member is started
  const seat = crewSeat(project, plan, options)
  const stop = () => seat.stop()
  options.signal.addEventListener('abort', stop)
  try {
    return await seat.run(job)
  } finally {
    options.signal.removeEventListener('abort', stop)
    stop()
  }
}
