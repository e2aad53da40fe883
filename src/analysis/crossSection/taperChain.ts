// The modes along an inverse taper, from widths below its tip up to the routing waveguide, and the taper loss that
// follows from them, against the width of the tip and against the length.

import type { CrossSectionEntry } from '../../model/schema/crossSection'
import { InputError } from '../../numerics/inputError'
import { plainText } from '../../numerics/numberText'
import type { Steps } from '../../numerics/steps'
import {
  type LocalModes,
  lossDb,
  modeOverlap,
  modeSteps,
  NoModeError,
  type SolvedMode,
  type Taper,
  taperLoss,
} from '../../optics/index'
import { opticsSection } from './opticsSection'
import { setVariable } from './sweepVariable'

export interface TaperRequest {
  /** Its first core, or all cores together, have the width of the tip. */
  readonly section: CrossSectionEntry
  readonly wavelengthUm: number
  readonly cells: { readonly x: number; readonly y: number }
  readonly tipUm: number
  readonly routingUm: number
}

/** One width of the chain. */
interface TaperStation {
  readonly widthUm: number
  readonly effectiveIndex: number
  readonly claddingIndex: number
  /** Amplitude overlaps; with itself for the last. */
  readonly overlapWithNext: number
  readonly overlapWithRouting: number
}

export interface TaperChain {
  readonly wavelengthUm: number
  readonly tipUm: number
  /** By rising width; the last is the routing waveguide. */
  readonly stations: readonly TaperStation[]
}

/** Solved widths from the tip to the routing waveguide, and from 0.7 of the tip to it, in equal ratios. */
const UPWARDS = 12
const DOWNWARDS = 4
const NARROWEST = 0.7

/** Widths in equal ratios. */
const ratios = (from: number, to: number, steps: number) =>
  Array.from({ length: steps + 1 }, (_, i) => from * (to / from) ** (i / steps))

const MOST_ROUTING_UM = 1000

function* solved({ section, wavelengthUm, cells }: TaperRequest, widthUm: number): Steps<SolvedMode> {
  const changed = structuredClone(section)
  const [first, ...more] = changed.cores
  setVariable(changed, { kind: 'width', coreId: more.length > 0 ? null : (first?.id ?? null) }, widthUm)
  return yield* modeSteps(opticsSection(changed, wavelengthUm), {
    kind: section.polarisation,
    wavelengthUm,
    cells,
  })
}

/**
 * Solves for the modes, widest first. The first width below the tip without a mode ends the series. Throws NoModeError where the tip itself has none,
 * InputError where the routing waveguide is not wider than the tip.
 */
export function* taperSteps(request: TaperRequest): Steps<TaperChain> {
  const { tipUm, routingUm, wavelengthUm } = request
  const leastUm = 1.05 * tipUm
  if (!(routingUm >= leastUm && routingUm <= MOST_ROUTING_UM)) {
    throw new InputError(
      'routing width',
      `${plainText(routingUm, 4)} µm`,
      `${plainText(leastUm, 4)} to ${MOST_ROUTING_UM} µm, wider than the tip`,
    )
  }
  const falling = [
    ...ratios(tipUm, routingUm, UPWARDS),
    ...ratios(NARROWEST * tipUm, tipUm, DOWNWARDS).slice(0, -1),
  ].toSorted((a, b) => b - a)
  const stations: TaperStation[] = []
  let routing: SolvedMode | null = null
  let wider: SolvedMode | null = null
  for (const [i, widthUm] of falling.entries()) {
    let mode: SolvedMode
    try {
      const steps = solved(request, widthUm)
      let step = steps.next()
      while (!step.done) {
        yield (i + step.value) / falling.length
        step = steps.next()
      }
      mode = step.value
    } catch (error) {
      if (error instanceof NoModeError && widthUm < tipUm * (1 - 1e-9)) break
      throw error
    }
    routing ??= mode
    stations.unshift({
      widthUm,
      effectiveIndex: mode.effectiveIndex,
      claddingIndex: mode.cutOffIndex,
      overlapWithNext: wider === null ? 1 : modeOverlap(wider, mode),
      overlapWithRouting: modeOverlap(routing, mode),
    })
    wider = mode
    yield (i + 1) / falling.length
  }
  return { wavelengthUm, tipUm, stations }
}

function localModes(stations: readonly TaperStation[]): LocalModes {
  return {
    widthUm: stations.map(({ widthUm }) => widthUm),
    effectiveIndex: stations.map(({ effectiveIndex }) => effectiveIndex),
    claddingIndex: stations.map(({ claddingIndex }) => claddingIndex),
    overlapWithNext: stations.slice(0, -1).map(({ overlapWithNext }) => overlapWithNext),
    overlapOfEnds: stations[0]?.overlapWithRouting ?? 1,
  }
}

/** The width of a tip, or the length of a taper, with the loss. */
export interface TaperPoint {
  readonly at: number
  readonly lossDb: number
}

type Shape = Pick<Taper, 'lengthUm' | 'exponent'>

const lossFrom = ({ wavelengthUm, stations }: TaperChain, first: number, shape: Shape): number =>
  lossDb(1 - taperLoss(localModes(stations.slice(first)), { wavelengthUm, ...shape }))

const tipAt = ({ stations, tipUm }: TaperChain) =>
  Math.max(
    0,
    stations.findIndex(({ widthUm }) => widthUm > tipUm * (1 - 1e-9)),
  )

/** Taper loss of the tip that was requested, dB. */
export const taperLossDb = (chain: TaperChain, shape: Shape): number => lossFrom(chain, tipAt(chain), shape)

/** Taper loss against the width of the tip at one length; up to the middle of the chain. */
export function lossOverTip(chain: TaperChain, shape: Shape): readonly TaperPoint[] {
  const { stations } = chain
  const shown = Math.min(stations.length - 1, tipAt(chain) + UPWARDS / 2 + 1)
  return stations
    .slice(0, shown)
    .map(({ widthUm }, i) => ({ at: widthUm, lossDb: lossFrom(chain, i, shape) }))
}

const LENGTHS = 24
const LENGTH_RANGE = [0.1, 4] as const

/** Taper loss of the tip that was requested, from a tenth to four times the length. */
export function lossOverLength(chain: TaperChain, { lengthUm, exponent }: Shape): readonly TaperPoint[] {
  const [least, most] = LENGTH_RANGE
  return ratios(least * lengthUm, most * lengthUm, LENGTHS).map((at) => ({
    at,
    lossDb: lossFrom(chain, tipAt(chain), { lengthUm: at, exponent }),
  }))
}
