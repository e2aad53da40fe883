// A project file that is being read: small ones at once, large ones in a worker, with progress and a way to cancel.

import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'
import type { Result } from '../../model/issue'
import type { Project } from '../../model/schema/project'

/** Read in less time than a worker takes to start. */
const SMALL_BYTES = 500_000

interface ReadingFile {
  readonly name: string
  /** Share done, 0 to 1. */
  readonly share: number
  readonly cancel: () => void
}

const reading = createStore<{ readonly file: ReadingFile | null }>()(() => ({ file: null }))

export function useReadingFile(): ReadingFile | null {
  return useStore(reading, (state) => state.file)
}

/**
 * The project of a file, or every fault. Rejects with an AbortError when it is cancelled, and where the file cannot be read or
 * the worker ends.
 */
export async function readProjectFile(file: File): Promise<Result<Project>> {
  if (file.size <= SMALL_BYTES) {
    const { readProjectText } = await import('../../model/project/parseProject')
    return readProjectText(await file.text())
  }
  reading.getState().file?.cancel()
  const controller = new AbortController()
  const show = (share: number) =>
    reading.setState({ file: { name: file.name, share, cancel: () => controller.abort() } })
  show(0)
  try {
    const { runProjectJob } = await import('../../jobs/projectClient')
    return await runProjectJob('read', file, { signal: controller.signal, onProgress: show })
  } finally {
    reading.setState({ file: null })
  }
}
