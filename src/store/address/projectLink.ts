// A whole project in the fragment of an address, compressed: whoever opens the link has the project, and no server has
// seen it, because browsers keep fragments to themselves. `#project=1.` and JSON as zlib data in base64url: its checksum detects a damaged
// link.

import { failure, type Result, success } from '../../model/issue'
import type { Project } from '../../model/schema/project'
import { fixedText } from '../../numerics/numberText'
import { PROJECT_HEAD } from './pageAddress'

const FORMAT = '1.'

export const LINK_LIMITS = {
  /** Characters of a fragment. Mail and chat programs cut longer addresses. */
  characters: 30_000,
  /** What a link may unpack to. No project of that many compressed characters needs so much. */
  unpackedBytes: 4_000_000,
} as const

const kilobytes = (size: number) => fixedText(size / 1000, 1)

/** The fragment that holds the project, or why there is none. */
export async function projectFragment(project: Project): Promise<Result<string>> {
  const packed = await packedText(JSON.stringify(project))
  if (packed === null) {
    return failure({
      path: [],
      code: 'missing',
      message: 'Link not copied: this browser cannot compress data',
      fix: 'Save the project to a file instead.',
    })
  }
  const fragment = `${PROJECT_HEAD}${FORMAT}${packed}`
  if (fragment.length > LINK_LIMITS.characters) {
    return failure({
      path: [],
      code: 'size',
      message: `Link not copied: the project needs ${kilobytes(fragment.length)} kB; a link holds at most ${kilobytes(LINK_LIMITS.characters)} kB`,
      fix: `Save the project to a file and send that.${project.measurements.length > 0 ? ' Measurements take most of the space.' : ''}`,
    })
  }
  return success(fragment)
}

/** The project of a fragment, checked as a file is, or why it cannot be opened. */
export async function projectOfFragment(fragment: string): Promise<Result<Project>> {
  const refuse = (message: string, code: 'format' | 'size' = 'format') =>
    failure<Project>({ path: [], code, message, fix: 'Ask the sender for the project file.' })
  if (fragment.length > LINK_LIMITS.characters) {
    return refuse(
      `Link not opened: it is ${kilobytes(fragment.length)} kB; the limit is ${kilobytes(LINK_LIMITS.characters)} kB`,
      'size',
    )
  }
  if (!fragment.startsWith(PROJECT_HEAD + FORMAT)) {
    return refuse('Link not opened: it was made by another release, or is not a Modeseam link')
  }
  const text = await unpackedText(fragment.slice(PROJECT_HEAD.length + FORMAT.length))
  if (text === null) return refuse('Link not opened: it is incomplete or damaged')
  if (text === 'too large') {
    return refuse(
      `Link not opened: it unpacks to more than ${LINK_LIMITS.unpackedBytes / 1e6} MB, the limit for a linked project`,
      'size',
    )
  }
  const { readProjectText } = await import('../../model/project/parseProject')
  return readProjectText(text)
}

async function packedText(text: string): Promise<string | null> {
  if (typeof CompressionStream === 'undefined') return null
  const stream = new Blob([text]).stream().pipeThrough(new CompressionStream('deflate'))
  const bytes = new Uint8Array(await new Response(stream).arrayBuffer())
  let binary = ''
  for (const byte of bytes) binary += String.fromCharCode(byte)
  return btoa(binary)
    .replaceAll('+', '-')
    .replaceAll('/', '_')
    .replace(/={1,2}$/, '')
}

/** The text behind packed characters; null where they are damaged. Stops as soon as it grows beyond the limit. */
async function unpackedText(packed: string): Promise<string | 'too large' | null> {
  if (!/^[\w-]*$/.test(packed)) return null
  try {
    const bytes = Uint8Array.from(atob(packed.replaceAll('-', '+').replaceAll('_', '/')), (each) =>
      each.charCodeAt(0),
    )
    const reader = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate')).getReader()
    const decoder = new TextDecoder('utf-8', { fatal: true })
    let [text, size] = ['', 0]
    for (;;) {
      const { done, value } = await reader.read()
      if (done) return text + decoder.decode()
      size += value.byteLength
      if (size > LINK_LIMITS.unpackedBytes) {
        await reader.cancel()
        return 'too large'
      }
      text += decoder.decode(value, { stream: true })
    }
  } catch {
    return null // not base64, not deflated, cut off, or not UTF-8
  }
}
