// A new project: a few numbers, and one click builds every family of designs that applies, best first.

import { useEffect, useRef, useState } from 'react'
import { type Brief, defaultBrief, fibreComplaint } from '../../analysis/proposals/brief'
import { emptyProject } from '../../model/index'
import { beginWith, compareBuilt, stopDescribing } from '../../store/files/starting'
import { runAll, runsOf } from '../../store/runAll'
import { settleFields } from '../../ui/fields/fieldWork'
import { BriefFields } from './BriefFields'
import { type BuildProgress, buildProject } from './buildProject'

export function NewProject() {
  const [brief, setBrief] = useState<Brief>(defaultBrief)
  const [progress, setProgress] = useState<BuildProgress | null>(null)
  const [failure, setFailure] = useState('')
  const latest = useRef(brief)
  latest.current = brief
  const building = useRef<AbortController>(null)
  useEffect(() => () => building.current?.abort(), [])
  // The dialog gives the focus to its first field; on a slow first visit this form comes after it has looked for one.
  const form = useRef<HTMLFormElement>(null)
  useEffect(() => form.current?.querySelector('input')?.focus(), [])
  const complaint = fibreComplaint(brief)
  const change = (part: Partial<Brief>) => {
    setFailure('')
    setBrief((now) => ({ ...now, ...part }))
  }

  const build = async () => {
    await settleFields()
    const controller = new AbortController()
    building.current = controller
    setFailure('')
    setProgress({ words: 'Building designs…', share: 0 })
    try {
      const named = { ...latest.current, name: latest.current.name.trim() || defaultBrief().name }
      const { project, outcomes } = await buildProject(named, controller.signal, setProgress)
      if (controller.signal.aborted) return
      compareBuilt(project, outcomes)
      void runAll(runsOf(project))
    } catch (error) {
      if (controller.signal.aborted) return
      setFailure(error instanceof Error ? error.message : String(error))
    }
    setProgress(null)
  }
  const startEmpty = () => {
    beginWith({ ...emptyProject(), name: brief.name.trim() || emptyProject().name })
    stopDescribing()
  }
  return (
    <form
      ref={form}
      className="new-project-form"
      onSubmit={(event) => {
        event.preventDefault()
        void build()
      }}
    >
      <p className="quiet new-project-lead">
        One click builds a design of every family that applies, with typical parts at optimum settings, and
        ranks them by your limit. Everything can be changed afterwards.
      </p>
      <BriefFields brief={brief} change={change} />
      {[complaint, failure]
        .filter((each) => each)
        .map((each) => (
          <p key={each} className="complaint" role="alert">
            {each}
          </p>
        ))}
      <div className="dialog-actions">
        {progress !== null && (
          <span className="new-project-progress" role="status">
            <progress value={progress.share} aria-label={progress.words} /> {progress.words}
          </span>
        )}
        <button type="button" onClick={startEmpty}>
          Start empty
        </button>
        <button
          type="submit"
          className="primary"
          disabled={progress !== null || (complaint !== null && brief.fibreMfd === null)}
        >
          Build and compare
        </button>
      </div>
    </form>
  )
}
