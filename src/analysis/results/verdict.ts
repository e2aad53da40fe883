// One requirement against a candidate: met, not met or not known, with the reason.

export type VerdictStatus = 'met' | 'not met' | 'not known'

/** A status as it is shown and printed. */
export const statusText = (status: VerdictStatus): string =>
  status === 'not known' ? 'not evaluated' : status

/** The mark in front of it, which distinguishes the three without colour. */
export const STATUS_MARKS: Readonly<Record<VerdictStatus, string>> = {
  met: '✓',
  'not met': '✗',
  'not known': '?',
}

/** The run that would answer a verdict which is not known. */
export type NeededRun = 'yield' | 'array'

export interface Verdict {
  readonly id: string
  readonly label: string
  readonly status: VerdictStatus
  readonly reason: string
  /** Result and limit in short form; absent if the result is not a number. */
  readonly value?: string
  readonly limit?: string
  /** True where the figure waits for a fit and may still change. */
  readonly provisional?: boolean
  /** Present where the figure is met and another one, that matters more, is not. */
  readonly caveat?: string
  /** True for a desirable requirement, which does not decide. */
  readonly wish?: boolean
  /** Present where a run of the values as they are now would answer it. */
  readonly needs?: NeededRun
  /** Present for a group of which one suffices. */
  readonly alternatives?: readonly Verdict[]
}

export const verdict = (id: string, label: string, status: VerdictStatus, reason: string): Verdict => ({
  id,
  label,
  status,
  reason,
})

export const metIf = (ok: boolean): VerdictStatus => (ok ? 'met' : 'not met')
