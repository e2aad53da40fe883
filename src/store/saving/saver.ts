// When the project is written. The first change after a quiet time is written at once; while changes go on, the next write
// begins a short pause after the last one has ended. One write is on its way at a time, but for the one of a page that goes.

import type { Issue } from '../../model/issue'
import type { Project } from '../../model/schema/project'
import type { Clock } from './clock'
import { type SaveState, stateOfError } from './saveState'

export const SAVING = {
  /** Between two writes, milliseconds: more for a project whose writing takes long. */
  shortestPauseMs: 250,
  longestPauseMs: 1500,
  /** Pause over the time that the write before took. */
  pauseRatio: 4,
  /** A database that has said nothing for so long is reported. */
  answerMs: 4000,
} as const

interface SaverTools {
  readonly present: () => Project
  /** What storage holds, or what has not been changed yet: it need not be written. */
  readonly kept: Project
  /** Why the project could not be read back. */
  readonly issuesOf: (project: Project) => readonly Issue[]
  readonly write: (project: Project) => Promise<void>
  readonly clock: Clock
  readonly tell: (state: SaveState) => void
}

export interface Saver {
  /** To be called after every change. */
  readonly changed: () => void
  /** Hands what is not on its way yet to storage before returning. */
  readonly flush: () => void
  /** Whether a change would be lost if the page ended now, as far as is known. */
  readonly atRisk: () => boolean
  readonly stop: () => void
}

export function saver({ present, kept: first, issuesOf, write, clock, tell }: SaverTools): Saver {
  let kept = first
  let onItsWay: Project | null = null
  let writes = 0
  let nextAt = 0
  let prevent: (() => void) | null = null
  /** True once storage has taken a project, and as long as it has not refused one since. */
  let proven = false
  let state: SaveState = 'fresh'

  const say = (next: SaveState) => {
    state = next
    tell(next)
  }
  const schedule = () => {
    if (prevent === null && writes === 0) prevent = clock.after(Math.max(0, nextAt - clock.now()), save)
  }
  const done = (project: Project, startedAt: number) => {
    writes -= 1
    if (onItsWay === project) onItsWay = null
    const wanted = SAVING.pauseRatio * (clock.now() - startedAt)
    nextAt = clock.now() + Math.min(SAVING.longestPauseMs, Math.max(SAVING.shortestPauseMs, wanted))
    if (present() !== project) schedule()
  }

  function save(): void {
    prevent?.()
    prevent = null
    const project = present()
    if (project === onItsWay || (project === kept && onItsWay === null)) return
    if (issuesOf(project).length > 0) {
      say('unreadable')
      return
    }
    const startedAt = clock.now()
    const stopWaiting = clock.after(SAVING.answerMs, () => {
      proven = false
      say('silent')
    })
    onItsWay = project
    writes += 1
    write(project).then(
      () => {
        stopWaiting()
        kept = project
        proven = true
        done(project, startedAt)
        if (present() === project) say('saved')
      },
      (error: unknown) => {
        stopWaiting()
        proven = false
        say(stateOfError(error))
        done(project, startedAt)
      },
    )
  }

  return {
    changed: () => {
      if (present() === kept && onItsWay === null) {
        if (state === 'unreadable' || state === 'saving') say('saved')
        return
      }
      if (state === 'fresh' || state === 'saved') say('saving')
      schedule()
    },
    flush: save,
    atRisk: () => present() !== kept && !(proven && onItsWay === present()),
    stop: () => prevent?.(),
  }
}
