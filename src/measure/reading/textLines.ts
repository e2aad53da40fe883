// Text as numbered lines, without copying it, and bytes as text.

export interface NumberedLine {
  readonly number: number
  readonly text: string
}

const COMMENT = /^\s*(#|%|\/\/|!|;\s*[a-z]|\*)\s*/i

/** Lines from 1 on, whatever ends them (LF, CRLF or CR alone). */
export function* numberedLines(text: string): Generator<NumberedLine> {
  const end = text.includes('\n') ? '\n' : '\r'
  let number = 1
  let from = text.charCodeAt(0) === 0xfeff ? 1 : 0
  while (from < text.length) {
    const found = text.indexOf(end, from)
    const to = found < 0 ? text.length : found
    const last = to > from && text.charCodeAt(to - 1) === 13 ? to - 1 : to
    yield { number, text: text.slice(from, last) }
    from = to + 1
    number++
  }
}

/** The text of a comment line without its mark; null for any other line. */
export function commentText(line: string): string | null {
  const mark = COMMENT.exec(line)
  // A row that starts with an empty field is not a comment.
  return mark && mark[1] !== undefined
    ? line.slice(mark[0].length - (/[a-z]$/i.test(mark[0]) ? 1 : 0)).trim()
    : null
}

/** True where the content is not text: control characters or replacement marks in more than 1 % of its head. */
export function looksBinary(text: string): boolean {
  const head = text.slice(0, 8192)
  let strange = 0
  for (let i = 0; i < head.length; i++) {
    const code = head.charCodeAt(i)
    if ((code < 32 && code !== 9 && code !== 10 && code !== 13 && code !== 12) || code === 0xfffd) strange++
  }
  return strange > 0.01 * head.length
}

/**
 * File bytes as text: UTF-8 or UTF-16 by their byte-order mark, else UTF-8, else Windows-1252 (where the micro
 * and degree signs of older instruments are single bytes).
 */
export function decodeText(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder('utf-16le').decode(bytes)
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder('utf-16be').decode(bytes)
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return new TextDecoder('windows-1252').decode(bytes)
  }
}
