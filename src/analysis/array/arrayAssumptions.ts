// The assumptions of an array run, as sentences.

import { MEMBER_NAMES } from '../../model/designs/alignOrder'
import { jointNames } from '../../model/designs/jointNames'
import { SOBOL_MOST_DIMENSIONS } from '../../numerics/random/sobol'
import { movedModels } from '../path/movedModels'
import { temperatureWords } from '../temperature/rises'
import { type ArrayBlock, blockDimensions } from './block'
import type { BlockJoin } from './blockJoin'
import type { RowStep } from './rowSteps'

const JOINED = new Intl.ListFormat('en', { type: 'conjunction' })

/** Description of what a step moves for all channels together. */
function movedRow({ member, free }: RowStep): readonly string[] {
  const axes = [free.x && 'x', free.y && 'y'].flatMap((axis) => (axis === false ? [] : [axis]))
  return member === 'guide'
    ? [...axes.map((axis) => `offset ${axis}`), ...(free.roll ? ['roll'] : [])]
    : axes.map((axis) => `${MEMBER_NAMES[member]} decentre ${axis}`)
}

/** Description of what the station does at one join. */
function placing({ steps }: BlockJoin): readonly string[] {
  const moved = steps.flatMap(movedRow)
  const order = steps.map(({ member }) => MEMBER_NAMES[member]).join(', then ')
  return [
    moved.length > 0
      ? `The station aligns ${JOINED.format(moved)} of each array to the optimum of the alignment strategy. Residual misalignment, cure shift and temperature follow, and can reverse the ranking of the strategies.`
      : 'Offsets and roll are not actively aligned: the array is placed at the entered values.',
    steps.every(({ middle }) => middle === null)
      ? 'Axial distances and tilts are set to the entered values.'
      : 'Axial distances and tilts, where actively aligned, are aligned for an ideal channel at the middle of the array; offsets and roll follow for the whole row.',
    ...(steps.length > 1
      ? [`Rows aligned in the order ${order}, one at a time, with the others fixed.`]
      : []),
  ]
}

/** For the screen and the review sheet. */
export function arrayAssumptions(block: ArrayBlock, temperaturesC: readonly number[]): readonly string[] {
  const { joins, compiled } = block
  const dimensions = blockDimensions(block)
  const names = jointNames(compiled.candidate.chain)
  const placed = joins.flatMap((join) => {
    const name = names.get(join.elementId)
    const where = joins.length < 2 || name === undefined ? '' : `At ${name.tag}, ${name.between}: `
    return placing(join).map((sentence) => `${where}${sentence}`)
  })
  return [
    'Quantities of the array (pitch, bow, pose, residual misalignment, cure shift) are sampled once per array; core positions and quantities that vary per channel, once per channel.',
    ...placed,
    ...(joins.length < 2
      ? []
      : [
          'Rows are placed in order, starting with the fibres; core position errors and bow are those of the fibres.',
        ]),
    ...(joins.some(({ model }) => model.relay !== undefined)
      ? [
          'Lenses have the pitch of their own row if one is given, otherwise that of the waveguides behind them; the position error of a lens is sampled once per row unless it varies per channel. Aperture clipping is ignored in the search.',
        ]
      : []),
    ...movedModels(compiled),
    'A tilt along the row changes the gap from channel to channel; the change of the gap with height at angled faces is neglected.',
    temperaturesC.length === 0
      ? 'No mount defined: temperature causes no displacement.'
      : `Assembled at ${temperatureWords(temperaturesC.slice(0, 1))}; each channel is evaluated at its worst temperature (${temperatureWords(temperaturesC)}). Thermal expansion of the array along its row is not modelled.`,
    ...(dimensions > SOBOL_MOST_DIMENSIONS
      ? [
          `An array uses ${dimensions} random numbers: the first ${SOBOL_MOST_DIMENSIONS} are dimensions of a Sobol sequence, the others (last channels) pseudo-random.`,
        ]
      : []),
  ]
}
