// The real focus of a ground tip as smooth functions of its radius and of the fibre's mode: Kirchhoff's integral at a few
// points about the nominal values, a parabola over the logarithms between them, the rest from the paraxial focus.

import { fitTip, type LensedTip, lensedTipFocus, type TipFit } from '../../../optics/index'

/** What the real focus is, over what paraxial optics says. */
interface TipRatios {
  readonly spot: number
  readonly distance: number
  /** Power in the best Gaussian over power that leaves the tip; 0 to 1. */
  readonly likeness: number
  readonly transmission: number
}

interface TipFits {
  /** The Gaussian that the real field resembles most; see TipFit. */
  readonly at: (tip: LensedTip) => TipFit
}

const KEPT = 400
const known = new Map<string, TipRatios>()

function ratios(tip: LensedTip): TipRatios {
  const key = `${tip.modeRadiusUm} ${tip.tipRadiusUm} ${tip.fibreIndex} ${tip.mediumIndex} ${tip.wavelengthUm}`
  const found = known.get(key)
  if (found !== undefined) return found
  const paraxial = lensedTipFocus(tip)
  const fit = fitTip(tip)
  const made = {
    spot: fit.spotRadiusUm / paraxial.spotRadiusUm,
    distance: fit.workingDistanceUm / paraxial.workingDistanceUm,
    likeness: Math.min(1, fit.overlap / fit.transmission),
    transmission: fit.transmission,
  }
  if (known.size >= KEPT) known.clear()
  known.set(key, made)
  return made
}

/** Parabolas hold within this share of the nominal radius; beyond it the tip is solved anew. */
const NEAR = 0.12

/** The value at `t` of the parabola through the values at -1, 0 and 1. */
const parabola = (below: number, here: number, above: number, t: number): number =>
  here + (t * (above - below)) / 2 + (t * t * (above + below - 2 * here)) / 2

/** Fits about a nominal tip. Nothing is solved before the first question. */
export function tipFits(nominal: LensedTip): TipFits {
  const scaled = (radius: number, mode: number) =>
    ratios({
      ...nominal,
      tipRadiusUm: nominal.tipRadiusUm * radius,
      modeRadiusUm: nominal.modeRadiusUm * mode,
    })
  const make = () => {
    const [up, down] = [1 + NEAR, 1 / (1 + NEAR)]
    return {
      here: scaled(1, 1),
      radius: [scaled(down, 1), scaled(up, 1)],
      mode: [scaled(1, down), scaled(1, up)],
    } as const
  }
  let table: ReturnType<typeof make> | null = null
  const step = Math.log(1 + NEAR)
  const interpolated = (name: keyof TipRatios, r: number, m: number): number => {
    table ??= make()
    const { here, radius, mode } = table
    if (r === 0 && m === 0) return here[name]
    const byRadius = parabola(radius[0][name], here[name], radius[1][name], r)
    return byRadius + parabola(mode[0][name], here[name], mode[1][name], m) - here[name]
  }
  return {
    at: (tip) => {
      const r = Math.log(tip.tipRadiusUm / nominal.tipRadiusUm) / step
      const m = Math.log(tip.modeRadiusUm / nominal.modeRadiusUm) / step
      const near = Math.abs(r) <= 1 && Math.abs(m) <= 1
      const anew = near ? null : ratios(tip)
      const of = (name: keyof TipRatios) => (anew === null ? interpolated(name, r, m) : anew[name])
      const paraxial = lensedTipFocus(tip)
      const transmission = Math.min(1, of('transmission'))
      return {
        spotRadiusUm: paraxial.spotRadiusUm * of('spot'),
        workingDistanceUm: paraxial.workingDistanceUm * of('distance'),
        overlap: Math.min(1, of('likeness')) * transmission,
        transmission,
      }
    },
  }
}
