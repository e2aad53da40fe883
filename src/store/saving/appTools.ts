// What saving asks of the app around it.

export interface AppTools {
  /** Takes over what stands in a field but is not in the project yet. */
  readonly settle: () => void
  /** Hears once that the last session's project is shown, or that nobody should wait for it any longer. */
  readonly restored: () => void
}
