// Halves a tolerance and runs again. Out of date it does nothing but keeps the keyboard's focus, which a disabled button
// would lose while the next run continues.

import type { Path } from '../../model/issue'

export function HalveButton({
  path,
  label,
  stale,
  onTighten,
}: {
  readonly path: Path
  readonly label: string
  readonly stale: boolean
  readonly onTighten: (path: Path) => void
}) {
  return (
    <button
      type="button"
      className="subtle"
      aria-disabled={stale}
      onClick={() => (stale ? undefined : onTighten(path))}
    >
      Halve<span className="visually-hidden"> the tolerance of {label}</span>
    </button>
  )
}
