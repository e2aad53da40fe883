// The cautions about laser light, wherever a power is typed or printed.

import { LASER_CAUTIONS } from '../../report/cautions'

export function LaserCautions() {
  return (
    <aside className="cautions" aria-label="Laser cautions">
      <p>{LASER_CAUTIONS}</p>
    </aside>
  )
}
