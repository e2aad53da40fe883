// Opening and saving project files: a file picker where the browser has one, a download and an upload elsewhere.

import { fileOpen, fileSave } from 'browser-fs-access'
import { INPUT_LIMITS } from '../../model/hostileInput'
import { projectText, readProjectText } from '../../model/index'
import { failure, type Issue } from '../../model/issue'
import type { Project } from '../../model/project'
import { workbench } from '../../store/workbench'

const FILE_KIND = { description: 'Modeseam project', extensions: ['.json'], mimeTypes: ['application/json'] }

/** Loads the file into the workbench, or says why not; the open project stays then. */
export async function loadProjectFile(file: File): Promise<readonly Issue[]> {
  const result =
    file.size > INPUT_LIMITS.textBytes
      ? failure<Project>({
          path: [],
          code: 'size',
          message: `${file.name} has ${(file.size / 1e6).toFixed(1)} MB; at most ${INPUT_LIMITS.textBytes / 1e6} MB are read`,
        })
      : readProjectText(await file.text())
  if (!result.ok) return result.issues
  workbench.getState().replaceProject(result.value)
  return []
}

function wasCancelled(error: unknown): boolean {
  return error instanceof DOMException && error.name === 'AbortError'
}

export async function openProject(): Promise<readonly Issue[]> {
  try {
    return await loadProjectFile(await fileOpen(FILE_KIND))
  } catch (error) {
    if (wasCancelled(error)) return []
    throw error
  }
}

function fileNameOf(project: Project): string {
  const plain = project.name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
  return `${plain || 'project'}.json`
}

export async function saveProject(): Promise<void> {
  const { project } = workbench.getState()
  const blob = new Blob([projectText(project)], { type: 'application/json' })
  try {
    await fileSave(blob, { ...FILE_KIND, fileName: fileNameOf(project) })
  } catch (error) {
    if (!wasCancelled(error)) throw error
  }
}
