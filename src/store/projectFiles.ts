// Opening and saving project files: a file picker where the browser has one, a download and an upload elsewhere.

import { projectText } from '../model/index'
import type { Issue } from '../model/issue'
import { INPUT_LIMITS } from '../model/project/hostileInput'
import type { Project } from '../model/schema/project'
import { loadReadBack, readBackIssues } from './saving/readBack'
import { savedToFile } from './saving/saveState'
import { workbench } from './workbench'

const FILE_KIND = { description: 'Modeseam project', extensions: ['.json'], mimeTypes: ['application/json'] }

function unusable(message: string, fix: string): readonly Issue[] {
  return [{ path: [], code: 'missing', message, fix }]
}

async function textOf(file: File): Promise<string | null> {
  try {
    return await file.text()
  } catch {
    return null // a folder, or a file that has gone or may not be read
  }
}

/** Loads the file into the workbench, or says why not; the open project stays then. */
export async function loadProjectFile(file: File): Promise<readonly Issue[]> {
  if (file.size > INPUT_LIMITS.textBytes) {
    const message = `${file.name} has ${(file.size / 1e6).toFixed(1)} MB; at most ${INPUT_LIMITS.textBytes / 1e6} MB are read`
    return [{ path: [], code: 'size', message }]
  }
  const text = await textOf(file)
  if (text === null) {
    return unusable(`${file.name} cannot be read`, 'Check that it is a file and may be read.')
  }
  const { readProjectText } = await import('../model/project/parseProject')
  const result = readProjectText(text)
  if (!result.ok) return result.issues
  workbench.getState().replaceProject(result.value)
  return []
}

export function wasCancelled(error: unknown): boolean {
  return error instanceof DOMException && error.name === 'AbortError'
}

export async function openProject(): Promise<readonly Issue[]> {
  try {
    const { fileOpen } = await import('browser-fs-access')
    return await loadProjectFile(await fileOpen(FILE_KIND))
  } catch (error) {
    if (wasCancelled(error)) return []
    throw error
  }
}

/** The project's name as a file's, with an ending. */
export function fileNameOf(project: Project, ending = '.json'): string {
  const plain = project.name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '')
  return `${plain || 'project'}${ending}`
}

/** Saves to a file, or says why not. A cancelled save has nothing to say. */
export async function saveProject(): Promise<readonly Issue[]> {
  const { project } = workbench.getState()
  await loadReadBack().catch(() => {}) // without the reader a file is better than none
  const issues = readBackIssues(project)
  if (issues.length > 0) {
    return [...unusable('Project not saved: it could not be read back', 'Undo the last change.'), ...issues]
  }
  const blob = new Blob([projectText(project)], { type: 'application/json' })
  try {
    const { fileSave } = await import('browser-fs-access')
    await fileSave(blob, { ...FILE_KIND, fileName: fileNameOf(project) })
    savedToFile(project)
  } catch (error) {
    if (wasCancelled(error)) return []
    return unusable('Project not saved: the file could not be written', 'Choose another name or folder.')
  }
  return []
}
