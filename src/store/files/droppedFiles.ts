// Dropped files go by what they hold: a project opens, readings go to Measurements.

import type { Issue } from '../../model/issue'
import { loadProjectFile } from './projectFiles'

const HEAD_BYTES = 256

/** JSON, or a file that says so by its name. */
async function isProject(file: File): Promise<boolean> {
  if (file.name.toLowerCase().endsWith('.json')) return true
  try {
    return /^\ufeff?\s*\{/.test(await file.slice(0, HEAD_BYTES).text())
  } catch {
    return true // a folder, or a file that may not be read: opening it says so
  }
}

/** Opens the last of the projects among the files, or says why not; all other files wait on the Measurements page. */
export async function openDropped(files: readonly File[]): Promise<readonly Issue[]> {
  const kinds = await Promise.all(files.map(isProject))
  const readings = files.filter((_, i) => !kinds[i])
  if (readings.length > 0) {
    const { offerFiles } = await import('../benchDesk')
    offerFiles(readings)
  }
  const project = files.findLast((_, i) => kinds[i])
  return project === undefined ? [] : loadProjectFile(project)
}
