// The review document as files, and every figure of it as a drawing, a picture or data.

import { useState } from 'react'
import type { Project } from '../../model/schema/project'
import { figuresOf } from '../../report/document/figureBlock'
import { FORMATS, type SheetFormat } from '../../report/formats'
import type { Sheet } from '../../report/sheet'
import { fileNameOf } from '../../store/files/projectFiles'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { FIGURE_FILES } from '../../ui/figures/figureFiles'

export function Downloads({
  sheet,
  sheetNow,
  project,
  waiting,
}: {
  readonly sheet: Sheet
  /** The sheet of the project as it is at this moment. */
  readonly sheetNow: () => Sheet
  readonly project: Project
  /** Whether numbers of the sheet are about to change. */
  readonly waiting: boolean
}) {
  const [said, setSaid] = useState('')
  const [figureId, setFigureId] = useState('')
  const figures = figuresOf(sheet.sections)
  const figure = figures.find(({ id }) => id === figureId) ?? figures[0]
  const tell = (work: Promise<string>) =>
    work.then(setSaid, (error: unknown) =>
      setSaid(`Export failed: ${error instanceof Error ? error.message : String(error)}`),
    )
  const saveSheet = async ({ render, ending, mediaType }: SheetFormat) => {
    setSaid('Exporting…')
    const [content, { saveFile }] = await Promise.all([
      render(sheetNow(), project),
      import('../../store/files/saveFile'),
    ])
    return saveFile(content, fileNameOf(project, `-sheet${ending}`), mediaType)
  }
  return (
    <section aria-label="Files">
      <h2>Files</h2>
      <div className="sheet-buttons">
        {FORMATS.map((format) => (
          <button
            key={format.id}
            type="button"
            disabled={waiting}
            onClick={() => void tell(saveSheet(format))}
          >
            {format.label}
          </button>
        ))}
      </div>
      {figure !== undefined && (
        <>
          <ChoiceField
            label="Figure"
            value={figure.id}
            choices={figures.map(({ id, caption }) => ({ value: id, label: caption }))}
            onChoose={setFigureId}
          />
          <div className="sheet-buttons">
            {FIGURE_FILES.map(({ label, save }) => (
              <button
                key={label}
                type="button"
                disabled={waiting}
                onClick={() => void tell(save(figure, fileNameOf(project, '')))}
              >
                {label}
              </button>
            ))}
          </div>
        </>
      )}
      <p role="status" className="quiet">
        {said}
      </p>
    </section>
  )
}
