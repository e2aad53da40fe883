// Parts to a file and back: JSON keeps everything, CSV opens in a spreadsheet.

import { fileOpen, fileSave } from 'browser-fs-access'
import type { Issue } from '../../../model/issue'
import { addParts } from '../../../model/parts/addParts'
import { partsCsv, readPartsCsv } from '../../../model/parts/partsCsv'
import { partsText, readPartsText } from '../../../model/parts/partsFile'
import type { Project } from '../../../model/schema/project'
import { fileNameOf, wasCancelled } from '../../../store/files/projectFiles'
import { editProject } from '../../../store/workbench'

export interface FileOutcome {
  /** What was done, in words; empty where nothing was. */
  readonly said: string
  readonly issues: readonly Issue[]
}

const NOTHING: FileOutcome = { said: '', issues: [] }

export async function exportParts(project: Project, kind: 'json' | 'csv'): Promise<FileOutcome> {
  const [text, type] =
    kind === 'json' ? [partsText(project), 'application/json'] : [partsCsv(project), 'text/csv']
  try {
    const fileName = fileNameOf(project, `-parts.${kind}`)
    await fileSave(new Blob([text], { type }), { fileName, extensions: [`.${kind}`] })
    return { said: `${fileName} written`, issues: [] }
  } catch (error) {
    if (wasCancelled(error)) return NOTHING
    return {
      said: '',
      issues: [{ path: [], code: 'missing', message: 'Parts not saved: the file could not be written' }],
    }
  }
}

/** Adds the parts of a chosen file as one undo step, or says why not. */
export async function importParts(): Promise<FileOutcome> {
  let text: string
  try {
    const file = await fileOpen({
      extensions: ['.json', '.csv'],
      mimeTypes: ['application/json', 'text/csv'],
    })
    text = await file.text()
  } catch (error) {
    if (wasCancelled(error)) return NOTHING
    return { said: '', issues: [{ path: [], code: 'missing', message: 'The file could not be read' }] }
  }
  const result = /^\ufeff?\s*\{/.test(text) ? readPartsText(text) : readPartsCsv(text)
  if (!result.ok) return { said: '', issues: result.issues }
  let added = 0
  editProject((draft) => {
    added = addParts(draft, result.value)
  })
  return { said: `${added} ${added === 1 ? 'part' : 'parts'} added`, issues: [] }
}
