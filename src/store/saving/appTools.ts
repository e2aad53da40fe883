// What saving asks of the app around it.

export interface AppTools {
  /** Commits the text of a field that is not in the project yet. */
  readonly settle: () => void
  /** Called once: the last session's project is shown, or waiting for it has ended. */
  readonly restored: () => void
}
