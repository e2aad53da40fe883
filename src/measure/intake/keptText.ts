// File names and comments as a project keeps them. What is longer is shortened, and says so.

import { READING_LIMITS } from '../../model/words/limits'

/** Characters kept of the end of a long file name, where its number and its ending are. */
const NAME_END = 60

/** The file's name, or its beginning and end where it is longer than a project keeps. */
export function keptFileName(fileName: string): string {
  const most = READING_LIMITS.fileNameCharacters
  if (fileName === '') return 'unnamed'
  if (fileName.length <= most) return fileName
  return `${fileName.slice(0, most - NAME_END - 1)}…${fileName.slice(-NAME_END)}`
}

/** The comments, each up to its limit; the last one says how many more there were. */
export function keptNotes(notes: readonly string[]): string[] {
  const { notes: most, noteCharacters } = READING_LIMITS
  const kept = notes.length > most ? notes.slice(0, most - 1) : notes
  const left = notes.length - kept.length
  const cut = kept.map((note) =>
    note.length <= noteCharacters ? note : `${note.slice(0, noteCharacters - 1)}…`,
  )
  return left === 0 ? cut : [...cut, `${left} more comment lines of the file are not kept.`]
}
