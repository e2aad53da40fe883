// Which lenses fit in front of every channel: an array of the row's pitch, single lenses where the pitch leaves them
// room, else an array as it is made to order.

import { CATALOGUE } from '../../model/catalogue/catalogue'
import { coreValue } from '../../model/quantity/quantity'
import type { LensEntry } from '../../model/schema/parts'
import type { Requirements } from '../../model/schema/requirements'
import { plainText } from '../../numerics/numberText'

type Row = Pick<Requirements, 'channels' | 'pitch'>

const SAME_PITCH_UM = 0.05
/** Single lenses with their mounts fit side by side from this pitch on. Common practice, no source. */
const SINGLES_FROM_UM = 1000

const pitchOf = ({ pitch }: LensEntry): number | null =>
  pitch === undefined ? null : coreValue(pitch, 'pitch')

/** Whether the lens, as one of its kind a channel, can serve the row. */
function suitsRow(lens: LensEntry, { channels, pitch }: Row): boolean {
  const own = pitchOf(lens)
  if (channels < 2) return own === null
  const wantedUm = coreValue(pitch, 'pitch')
  if (own !== null) return Math.abs(own - wantedUm) < SAME_PITCH_UM
  return wantedUm >= SINGLES_FROM_UM && coreValue(lens.clearAperture, 'aperture') < wantedUm
}

/** Lens arrays of the next smaller pitch as they are ordered at the row's own. */
function madeToOrder({ pitch }: Row): readonly LensEntry[] {
  const wantedUm = coreValue(pitch, 'pitch')
  const smaller = CATALOGUE.lenses.flatMap((lens) => {
    const own = pitchOf(lens)
    return own !== null && own < wantedUm ? [own] : []
  })
  const nextUm = Math.max(0, ...smaller)
  return CATALOGUE.lenses
    .filter((lens) => pitchOf(lens) === nextUm)
    .map((lens) => ({
      ...lens,
      id: `${lens.id}-to-order`,
      name: `${lens.name}, made to order at a pitch of ${plainText(wantedUm, 5)} µm`,
      pitch: { ...pitch, provenance: 'estimate' },
    }))
}

/** The lenses to choose from: the project's own where any suits, else the catalogue's, else arrays made to order; none for too fine a pitch. */
export function rowLenses(own: readonly LensEntry[], row: Row): readonly LensEntry[] {
  const mine = own.filter((lens) => suitsRow(lens, row))
  if (mine.length > 0) return mine
  const listed = CATALOGUE.lenses.filter((lens) => suitsRow(lens, row))
  const ids = new Set(own.map(({ id }) => id))
  return (listed.length > 0 ? listed : madeToOrder(row)).filter(({ id }) => !ids.has(id))
}
