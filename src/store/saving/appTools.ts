// What saving asks of the app around it.

export interface AppTools {
  /** Commits the text of a field that is not in the project yet. */
  readonly settle: () => void
  /** Hears once that the last session's project is shown, or that there is no need to wait for it any longer. */
  readonly restored: () => void
}
