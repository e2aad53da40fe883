// How many parts are picked, and what can be done with them.

import { useState } from 'react'
import { type ListedPart, refKey } from '../../../model/parts/partKinds'
import type { Project } from '../../../model/schema/project'
import { pickParts, usePartsView } from '../../../store/partsView'
import { copyPicked, deletePicked, refsOf } from './pickedActions'
import { SetTolerance } from './SetTolerance'

export function PickedBar({
  project,
  shown,
  onSaid,
}: {
  readonly project: Project
  readonly shown: readonly ListedPart[]
  readonly onSaid: (said: string) => void
}) {
  const picked = usePartsView((state) => state.picked)
  const [setting, setSetting] = useState(false)
  const refs = refsOf(project, picked)
  const none = refs.length === 0
  return (
    <div className="picked-bar" role="toolbar" aria-label="Selected parts">
      <button
        type="button"
        className="subtle"
        onClick={() => pickParts(none ? shown.map(refKey) : [])}
        disabled={none && shown.length === 0}
      >
        {none ? 'Select all' : 'Clear selection'}
      </button>
      <span className="quiet">
        {none ? `${shown.length} ${shown.length === 1 ? 'part' : 'parts'}` : `${refs.length} selected`}
      </span>
      {!none && (
        <>
          <button type="button" className="subtle" onClick={() => onSaid(copyPicked(project, picked))}>
            Copy
          </button>
          <button type="button" className="subtle" onClick={() => setSetting(true)}>
            Set tolerance…
          </button>
          <button type="button" className="subtle" onClick={() => onSaid(deletePicked(project, picked))}>
            Delete
          </button>
        </>
      )}
      <SetTolerance
        project={project}
        refs={refs}
        shown={setting}
        onClose={() => setSetting(false)}
        onSaid={onSaid}
      />
    </div>
  )
}
