// A large project file that is being read: how far, and a way out of it.

import { useReadingFile } from '../store/files/reading'
import { Progress } from '../ui/jobs/Progress'

export function ReadingFile() {
  const file = useReadingFile()
  if (file === null) return null
  return (
    <div className="app-update">
      <Progress label={`Reading ${file.name}…`} share={file.share} />
      <button type="button" onClick={file.cancel}>
        Cancel reading
      </button>
    </div>
  )
}
