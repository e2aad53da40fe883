// One requirement against a candidate: met, not met or not known, with the reason.

export type VerdictStatus = 'met' | 'not met' | 'not known'

export interface Verdict {
  readonly id: string
  readonly label: string
  readonly status: VerdictStatus
  readonly reason: string
}

export const verdict = (id: string, label: string, status: VerdictStatus, reason: string): Verdict => ({
  id,
  label,
  status,
  reason,
})

export const within = (ok: boolean): VerdictStatus => (ok ? 'met' : 'not met')
