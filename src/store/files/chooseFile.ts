// One file chosen by the user.

import { megabytesText } from '../../numerics/numberText'
import type { Outcome } from '../../numerics/outcome'
import { wasCancelled } from './projectFiles'

interface FileKind {
  readonly description: string
  readonly extensions: string[]
  readonly largestBytes: number
}

/** The file; null where none was chosen, and why not where it is too large or could not be opened. */
export async function chooseFile({
  description,
  extensions,
  largestBytes,
}: FileKind): Promise<Outcome<File> | null> {
  try {
    const { fileOpen } = await import('browser-fs-access')
    const file = await fileOpen({ description, extensions })
    if (file.size <= largestBytes) return { ok: true, value: file }
    const message = `${file.name} is ${megabytesText(file.size)}; the limit is ${largestBytes / 1e6} MB`
    return { ok: false, message }
  } catch (error) {
    if (wasCancelled(error)) return null
    return { ok: false, message: error instanceof Error ? error.message : String(error) }
  }
}
