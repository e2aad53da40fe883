// Runs what the document asks for and does not have: yields first, because the proposed design may depend on them.

import { useEffect, useState } from 'react'
import type { Sheet } from '../../report/sheet'
import { DOCUMENT_RUNS, type MissingRun } from '../../report/summary/missingRuns'
import { cancelAll, runAll, useTurn } from '../../store/runAll'
import { useRun } from '../../store/runs'
import { Progress } from '../../ui/jobs/Progress'

/** A document that asks for nothing more for so long is whole. */
const SETTLE_MS = 600

const NONE: readonly MissingRun[] = []
const keyOf = ({ kind, candidateId }: MissingRun) => `${kind}/${candidateId}`

function Going({ onCancel }: { readonly onCancel: () => void }) {
  const { running, current, done, of } = useTurn()
  const { progress } = useRun(current?.kind ?? 'yield', current?.candidateId ?? '')
  if (current === null) return <Progress label="Updating the document…" share={1} />
  return (
    <>
      <Progress label={`Simulating ${running}…`} share={(done + (progress ?? 0)) / of} />
      <button type="button" onClick={onCancel}>
        Cancel
      </button>
    </>
  )
}

export function RunMissing({ sheet, current }: { readonly sheet: Sheet | null; readonly current: boolean }) {
  const missing = sheet?.summary?.missing ?? NONE
  const { running } = useTurn()
  // What was tried since the button was pressed; null before. A run that fails is not tried again.
  const [tried, setTried] = useState<ReadonlySet<string> | null>(null)
  useEffect(() => {
    if (tried === null || running !== '' || !current) return
    const open = missing.filter((each) => !tried.has(keyOf(each)))
    if (open.length === 0) {
      // The results may not have reached the document yet, and it may ask for more once they have.
      const timer = setTimeout(() => setTried(null), SETTLE_MS)
      return () => clearTimeout(timer)
    }
    const yields = open.filter(({ kind }) => kind === 'yield')
    const next = yields.length > 0 ? yields : open
    setTried(new Set([...tried, ...next.map(keyOf)]))
    void runAll(next, DOCUMENT_RUNS)
  }, [tried, running, current, missing])
  if (tried !== null) {
    return (
      <Going
        onCancel={() => {
          setTried(null)
          cancelAll()
        }}
      />
    )
  }
  if (missing.length === 0) return null
  return (
    <button type="button" disabled={running !== ''} onClick={() => setTried(new Set())}>
      Run missing simulations ({missing.length})
    </button>
  )
}
