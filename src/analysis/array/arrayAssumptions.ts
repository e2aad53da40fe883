// What an array run takes for granted, in words.

import { jointNames } from '../../model/designs/jointNames'
import { SOBOL_MOST_DIMENSIONS } from '../../numerics/sobol'
import { temperatureWords } from '../temperature/rises'
import { type Block, blockDimensions } from './block'
import type { BlockJoin } from './blockJoin'

const JOINED = new Intl.ListFormat('en', { type: 'conjunction' })

/** What the station does at one join. */
function placing({ free, alignMiddle }: BlockJoin): readonly string[] {
  const moved = [free.x && 'offset x', free.y && 'offset y', free.roll && 'roll'].filter(
    (each) => each !== false,
  )
  return [
    moved.length > 0
      ? `The station moves ${JOINED.format(moved)} to where its aim is best for the very block in hand; the residual, bonding and temperature come after, and can turn the order of the aims round.`
      : 'The block is placed as typed; the station moves neither offsets nor roll.',
    alignMiddle === null
      ? 'Gap and tilts are placed as typed.'
      : 'What the station aligns in gap and tilt it aligns for a perfect channel in the middle of the block.',
  ]
}

/** For the screen and the review sheet. */
export function arrayAssumptions(block: Block, temperaturesC: readonly number[]): readonly string[] {
  const { joins, compiled } = block
  const dimensions = blockDimensions(block)
  const names = jointNames(compiled.candidate.chain)
  const placed = joins.flatMap((join) => {
    const between = joins.length < 2 ? '' : ` Joint ${names.get(join.elementId)?.between ?? ''}.`
    return placing(join).map((sentence) => `${sentence}${between}`)
  })
  return [
    'What belongs to the block (pitch, bow, pose, residual, bonding shift) is drawn once a block; core positions and numbers marked "each channel" once a channel.',
    ...placed,
    ...(joins.length < 2
      ? []
      : [
          'Rows are placed one after the other from the fibres on; core errors and bow are those of the fibres.',
        ]),
    ...(joins.some(({ model }) => model.relay !== undefined)
      ? [
          'Lenses stand in rows of their own pitch, else in that of the guides behind them; a lens\'s place is drawn once for its row unless it is marked "each channel". What apertures clip plays no part in the search.',
        ]
      : []),
    'A tilt along the row opens the gap along it; faces that lean do not change the gap with height.',
    temperaturesC.length === 0
      ? 'No mount is described: temperature moves nothing.'
      : `Aligned at ${temperatureWords(temperaturesC.slice(0, 1))}; each channel counts with its worst of ${temperatureWords(temperaturesC)}. That the block itself grows along the row is not in the model.`,
    ...(dimensions > SOBOL_MOST_DIMENSIONS
      ? [
          `A block draws ${dimensions} numbers: the first ${SOBOL_MOST_DIMENSIONS} are Sobol points, those of the last channels pseudo-random.`,
        ]
      : []),
  ]
}
