// Which part suits best: by the mismatch of two Gaussians with their waists on each other.

import { coreValue, type Quantity } from '../../model/quantity/quantity'
import type { FacetEntry, FibreEntry } from '../../model/schema/parts'
import { rounded } from '../../numerics/numberText'
import { isSingleMode, jointLossDb, normalisedFrequency, stepIndexMode } from '../../optics/index'
import { fibreModeKind } from '../crossSection/opticsSection'
import { ALIGNED } from '../path/gap/jointLines'

export interface ModeSize {
  readonly xUm: number
  readonly yUm: number
}

/** Diameters of catalogue facets and converters are stated for these wavelengths, um. Common practice, no source. */
const CATALOGUE_BAND_UM = [1.26, 1.7] as const

export const inCatalogueBand = (wavelengthUm: number): boolean =>
  wavelengthUm >= CATALOGUE_BAND_UM[0] && wavelengthUm <= CATALOGUE_BAND_UM[1]

export const bandText = (): string => `${CATALOGUE_BAND_UM.map((um) => 1000 * um).join(' to ')} nm`

/** A part of the project's own is preferred unless the catalogue's is better by more than this, dB. */
const OWN_WORTH_DB = 0.2

/** The Gaussian that represents the fibre's mode; null where its core guides none that the model covers. */
export function fibreSize(fibre: FibreEntry, wavelengthUm: number): ModeSize | null {
  const kind = fibreModeKind(fibre)
  if (kind.kind === 'gaussian') return { xUm: kind.mfdXUm, yUm: kind.mfdYUm }
  try {
    const { bestGaussianMfdUm } = stepIndexMode({ ...kind, wavelengthUm })
    return { xUm: bestGaussianMfdUm, yUm: bestGaussianMfdUm }
  } catch {
    return null
  }
}

/** Whether the fibre carries one mode only; taken as true of a fibre that is known by its mode. */
export function carriesOneMode(fibre: FibreEntry, wavelengthUm: number): boolean {
  const kind = fibreModeKind(fibre)
  return kind.kind === 'gaussian' || isSingleMode(normalisedFrequency({ ...kind, wavelengthUm }))
}

export const sizeOf = (mfdX: Quantity, mfdY: Quantity = mfdX): ModeSize => ({
  xUm: coreValue(mfdX, 'mfd'),
  yUm: coreValue(mfdY, 'mfd'),
})

export const facetSize = ({ mfdX, mfdY }: FacetEntry): ModeSize => sizeOf(mfdX, mfdY)

/** Geometric mean of both diameters, um. */
export const meanUm = ({ xUm, yUm }: ModeSize): number => Math.sqrt(xUm * yUm)

export const sizeText = ({ xUm, yUm }: ModeSize): string => {
  const [x, y] = [rounded(xUm, 3), rounded(yUm, 3)]
  return x === y ? `${x} µm` : `${x} × ${y} µm`
}

/** Loss of two aligned modes in contact, dB. Source: D. Marcuse, Bell Syst. Tech. J. 56 (1977) 703, one factor an axis. */
export function mismatchDb(from: ModeSize, to: ModeSize): number {
  return jointLossDb({
    wavelengthUm: 1,
    index: 1,
    emitterMfdXUm: from.xUm,
    emitterMfdYUm: from.yUm,
    receiverMfdXUm: to.xUm,
    receiverMfdYUm: to.yUm,
    ...ALIGNED,
  })
}

interface Offer<T> {
  readonly part: T
  /** True for a part of the project, false for one of the catalogue. */
  readonly own: boolean
  readonly lossDb: number
}

/** The part that loses least; one of the project's own where it is about as good. Undefined where there is none. */
export function bestOffer<T>(
  own: readonly T[],
  catalogue: readonly T[],
  lossDb: (part: T) => number | null,
): Offer<T> | undefined {
  const offers = (parts: readonly T[], isOwn: boolean) =>
    parts.flatMap((part): readonly Offer<T>[] => {
      const loss = lossDb(part)
      return loss === null ? [] : [{ part, own: isOwn, lossDb: loss }]
    })
  const least = (all: readonly Offer<T>[]) => all.toSorted((a, b) => a.lossDb - b.lossDb)[0]
  const [mine, listed] = [least(offers(own, true)), least(offers(catalogue, false))]
  if (mine === undefined || listed === undefined) return mine ?? listed
  return mine.lossDb - listed.lossDb <= OWN_WORTH_DB ? mine : listed
}
