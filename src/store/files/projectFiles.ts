// Opening and saving project files: a file picker where the browser has one, a download and an upload elsewhere.

import { isWorkerLoss } from '../../jobs/workerLife'
import { projectText } from '../../model/index'
import { failure, type Issue, type Result } from '../../model/issue'
import { INPUT_LIMITS } from '../../model/project/hostileInput'
import type { Project } from '../../model/schema/project'
import { megabytesText } from '../../numerics/numberText'
import { loadReadBack, readBackIssues } from '../readBack'
import { workbench } from '../workbench'
import { readProjectFile } from './reading'
import { type FileHandle, rememberFile } from './recentFiles'
import { beginWith, markKept, mayReplace } from './starting'

const FILE_KIND = { description: 'Modeseam project', extensions: ['.json'], mimeTypes: ['application/json'] }

function unusable(message: string, fix: string): readonly Issue[] {
  return [{ path: [], code: 'missing', message, fix }]
}

/** The project of a file, or why there is none; nothing to say where the person has cancelled. */
async function readOrRefuse(file: File): Promise<Result<Project>> {
  try {
    return await readProjectFile(file)
  } catch (error) {
    if (wasCancelled(error)) return failure()
    if (isWorkerLoss(error)) {
      return failure(...unusable(`${file.name} could not be read`, error.message))
    }
    // A folder, or a file that has gone or may not be read.
    return failure(
      ...unusable(
        `${file.name} cannot be read`,
        'Check that it is a file and that you have permission to read it.',
      ),
    )
  }
}

/**
 * Loads the file into the workbench, or says why not; the open project stays then. Asks first where that one has changes
 * that are in no file, unless the person was asked already.
 */
export async function loadProjectFile(file: File, { asked = false } = {}): Promise<readonly Issue[]> {
  if (file.size > INPUT_LIMITS.textBytes) {
    const message = `${file.name} is ${megabytesText(file.size)}; the limit is ${INPUT_LIMITS.textBytes / 1e6} MB`
    return [{ path: [], code: 'size', message }]
  }
  const result = await readOrRefuse(file)
  if (!result.ok) return result.issues
  if (asked || (await mayReplace(`Open ${file.name}`))) beginWith(result.value)
  return []
}

export function wasCancelled(error: unknown): boolean {
  return error instanceof DOMException && error.name === 'AbortError'
}

export async function openProject(): Promise<readonly Issue[]> {
  if (!(await mayReplace('Open a project'))) return []
  try {
    const { fileOpen } = await import('browser-fs-access')
    const file = await fileOpen(FILE_KIND)
    const issues = await loadProjectFile(file, { asked: true })
    if (issues.length === 0) await rememberFile(file.handle)
    return issues
  } catch (error) {
    if (wasCancelled(error)) return []
    throw error
  }
}

/** Opens a file of an earlier session; the browser may ask for leave to read it. */
export async function openRecent(handle: FileHandle): Promise<readonly Issue[]> {
  if (!(await mayReplace(`Open ${handle.name}`))) return []
  try {
    const leave = await handle.requestPermission?.({ mode: 'read' })
    if (leave !== undefined && leave !== 'granted') return []
    const issues = await loadProjectFile(await handle.getFile(), { asked: true })
    if (issues.length === 0) await rememberFile(handle)
    return issues
  } catch {
    return unusable(`${handle.name} cannot be read`, 'It may have been moved or deleted. Use Open instead.')
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
    const handle = await fileSave(blob, { ...FILE_KIND, fileName: fileNameOf(project) })
    markKept()
    await rememberFile(handle)
  } catch (error) {
    if (wasCancelled(error)) return []
    return unusable('Project not saved: the file could not be written', 'Choose another name or folder.')
  }
  return []
}
