// The opened files that are not imported yet, one after the other, and which measurement is shown.
// None of this is in the project: a reading enters it only when it is taken.

import { useStore } from 'zustand'
import { createStore } from 'zustand/vanilla'
import { runMeasureJob } from '../jobs/measureClient'
import type { MeasureOutput } from '../jobs/measureJobs'
import { registerDetail } from './address/details'
import { keepDraft, keptDraft } from './saving/drafts'
import { showPage } from './view'

type ReadOutput = MeasureOutput<'read'>
type DeskReading = Extract<ReadOutput, { ok: true }>['value']
type DeskAnswers = Readonly<Record<string, string>>

export interface DeskFile {
  readonly blob: Blob
  readonly name: string
  /** ISO date of the file; of today for what was pasted. */
  readonly date: string
  /** The text, where it was pasted. */
  readonly pasted?: string
}

export type DeskStage =
  | { readonly at: 'empty' }
  | {
      readonly at: 'reading'
      readonly file: DeskFile
      readonly share: number
      /** What an earlier reading of the same file said, while an answer is worked in. */
      readonly before: DeskReading | null
    }
  | { readonly at: 'refused'; readonly file: DeskFile; readonly message: string }
  | { readonly at: 'read'; readonly file: DeskFile; readonly reading: DeskReading }

const FIRST_DAY = Date.UTC(1900)
const END_OF_DAYS = Date.UTC(9999, 11, 31)

export const DIFFERENCE = 'difference'

interface Desk {
  readonly stage: DeskStage
  readonly answers: DeskAnswers
  readonly waiting: readonly DeskFile[]
  /** Id of the measurement that is shown, or DIFFERENCE. */
  readonly chosen: string
  /** A table as it is typed or pasted: in place until it is imported. */
  readonly pasted: string
}

const PASTED = 'pasted table'

const desk = createStore<Desk>()(() => ({
  stage: { at: 'empty' },
  answers: {},
  waiting: [],
  chosen: '',
  pasted: keptDraft(PASTED) ?? '',
}))
let job = new AbortController()

export function useDesk<T>(select: (state: Desk) => T): T {
  return useStore(desk, select)
}

/** The day, or today's for a clock that was set beyond the years of four digits. */
function isoDate(milliseconds: number): string {
  const isDay = milliseconds >= FIRST_DAY && milliseconds < END_OF_DAYS
  return new Date(isDay ? milliseconds : Date.now()).toISOString().slice(0, 10)
}

async function read(file: DeskFile, answers: DeskAnswers, before: DeskReading | null = null): Promise<void> {
  job.abort()
  job = new AbortController()
  const { signal } = job
  const reading = (share: number) => desk.setState({ stage: { at: 'reading', file, share, before } })
  desk.setState({ answers })
  reading(0)
  try {
    const outcome = await runMeasureJob(
      'read',
      { blob: file.blob, fileName: file.name, answers },
      { signal, onProgress: reading },
    )
    if (signal.aborted) return
    desk.setState({
      stage: outcome.ok
        ? { at: 'read', file, reading: outcome.value }
        : { at: 'refused', file, message: outcome.message },
    })
  } catch (error) {
    if (signal.aborted) return
    const message = error instanceof Error ? error.message : String(error)
    desk.setState({ stage: { at: 'refused', file, message: `${file.name} could not be read: ${message}` } })
  }
}

function next(): void {
  const [file, ...waiting] = desk.getState().waiting
  if (file === undefined) {
    desk.setState({ stage: { at: 'empty' }, answers: {} })
    return
  }
  desk.setState({ waiting })
  void read(file, {})
}

function offer(offered: readonly DeskFile[]): void {
  const { waiting, stage } = desk.getState()
  desk.setState({ waiting: [...waiting, ...offered] })
  showPage('measurements')
  if (stage.at === 'empty') next()
}

/** Opens files on the Measurements page; they are read one after the other. */
export function offerFiles(files: readonly File[]): void {
  offer(files.map((file) => ({ blob: file, name: file.name, date: isoDate(file.lastModified) })))
}

export function setPasted(pasted: string): void {
  desk.setState({ pasted })
  keepDraft(PASTED, pasted === '' ? null : pasted)
}

/** Reads pasted text like a file; it is in the field for such text until it is imported. */
export function offerText(text: string): void {
  if (desk.getState().pasted === '') setPasted(text)
  const blob = new Blob([text], { type: 'text/plain' })
  offer([{ blob, name: PASTED, date: isoDate(Date.now()), pasted: text }])
}

/** Settles doubts and reads the file again. */
export function answerDoubts(given: DeskAnswers): void {
  const { stage, answers } = desk.getState()
  if (stage.at === 'read') void read(stage.file, { ...answers, ...given }, stage.reading)
}

export function answerDoubt(id: string, answer: string): void {
  answerDoubts({ [id]: answer })
}

/** Puts the file away, whatever has become of it, and takes the next one. */
export function clearDesk(): void {
  job.abort()
  next()
}

/** Puts away the file that has been imported. */
export function clearImported(): void {
  const { stage, pasted } = desk.getState()
  if (stage.at === 'read' && stage.file.pasted === pasted) setPasted('')
  clearDesk()
}

export function chooseOnBench(chosen: string): void {
  desk.setState({ chosen })
}

registerDetail('measurements', {
  read: () => {
    const { chosen } = desk.getState()
    return chosen === '' ? {} : { item: chosen }
  },
  show: ({ item }) => desk.setState({ chosen: item ?? '' }),
  watch: (tell) => {
    desk.subscribe((state, before) => {
      if (state.chosen !== before.chosen) tell()
    })
  },
})
