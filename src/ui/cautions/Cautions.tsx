// The usual cautions, wherever the work they belong to is planned.

import { CAUTIONS } from '../../report/cautions'

export function Cautions() {
  return (
    <aside className="cautions" aria-label="Cautions">
      <p>{CAUTIONS}</p>
    </aside>
  )
}
