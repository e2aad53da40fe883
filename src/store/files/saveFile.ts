// A made file for whoever asked for it: a picker where the browser has one, a download elsewhere.

import { fileSave } from 'browser-fs-access'
import { wasCancelled } from './projectFiles'

/** Saves the content; says in words what came of it, or nothing where it was cancelled. */
export async function saveFile(
  content: string | Uint8Array | Blob,
  fileName: string,
  mediaType: string,
): Promise<string> {
  // The bytes are ours alone: nothing shares their buffer.
  const part = content instanceof Uint8Array ? new Uint8Array(content) : content
  const ending = fileName.slice(fileName.lastIndexOf('.'))
  try {
    await fileSave(new Blob([part], { type: mediaType }), { fileName, extensions: [ending] })
    return `${fileName} written`
  } catch (error) {
    if (wasCancelled(error)) return ''
    return `${fileName} not saved: no write access to that location`
  }
}
