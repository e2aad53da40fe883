// How far a search over a design is, once it takes long enough to be noticed, with the one button that gives it up or begins it again.

import { Progress } from './Progress'
import type { JobState } from './useJob'

export function SearchLine({ label, search }: { readonly label: string; readonly search: JobState }) {
  const { progress, message, cancel, again } = search
  if (progress === null && message === '') return null
  return (
    <div className="search-line">
      <Progress label={label} share={progress} />
      {progress === null && <span role="status">{message}</span>}
      <button type="button" onClick={progress === null ? again : cancel}>
        {progress === null ? 'Run again' : 'Cancel'}
      </button>
    </div>
  )
}
