// The shown paper as files.

import { useState } from 'react'
import { PAPER_FORMATS, type PaperFormat } from '../../report/paperFormats'
import { PAPER_FILE_NAMES, PAPER_TITLES, type PaperKind, type PaperRequest } from '../../report/papers'
import { fileNameOf } from '../../store/files/projectFiles'

export function PaperFiles({
  kind,
  request,
  waiting,
}: {
  readonly kind: PaperKind
  readonly request: PaperRequest
  /** Whether numbers of the paper are about to change. */
  readonly waiting: boolean
}) {
  const [said, setSaid] = useState('')
  const save = async ({ ending, mediaType, render }: PaperFormat) => {
    setSaid('Exporting…')
    const [content, { saveFile }] = await Promise.all([
      render(kind, request),
      import('../../store/files/saveFile'),
    ])
    return saveFile(content, fileNameOf(request.project, `-${PAPER_FILE_NAMES[kind]}${ending}`), mediaType)
  }
  return (
    <section aria-label="Files">
      <h2>{PAPER_TITLES[kind]} as a file</h2>
      <div className="order-buttons">
        {PAPER_FORMATS.filter(({ kinds }) => kinds.includes(kind)).map((format) => (
          <button
            key={format.id}
            type="button"
            disabled={waiting}
            onClick={() =>
              void save(format).then(setSaid, (error: unknown) =>
                setSaid(`Export failed: ${error instanceof Error ? error.message : String(error)}`),
              )
            }
          >
            {format.label}
          </button>
        ))}
      </div>
      <p role="status" className="quiet">
        {said}
      </p>
    </section>
  )
}
