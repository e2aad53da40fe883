// The bodies on the fibre side: the outlines given, or the assumed ones where none is given.

import { coreValue } from '../../model/quantity/quantity'
import type { Barrel, Outline } from '../../model/schema/build/outline'
import { box, type FaceSlopes, type Ring, revolved, type Solid } from './solids'

/** Length of the bodies, um: beyond any ledge. */
const LENGTH_UM = 50_000

/** What is taken of a lensed tip whose cone no one states: the half angle of its sides and how far its cap goes round; common practice, no source. */
const CONE_SLOPE = 1.4
const CAP_HALF_ANGLE = (55 * Math.PI) / 180
/** The radius of a tip that is defined by its spot only; common practice, no source. */
export const ASSUMED_TIP_RADIUS_UM = 10
const CAP_RINGS = 12

/** The cap of a lensed tip from its apex to where the cone begins. */
function capRings(radiusUm: number, reachRad: number): readonly Ring[] {
  return Array.from({ length: CAP_RINGS + 1 }, (_, i) => {
    const angle = (reachRad * i) / CAP_RINGS
    return {
      zUm: -radiusUm * (1 - Math.cos(angle)),
      radiusUm: radiusUm * Math.sin(angle),
    }
  })
}

/** Profile of a lensed end from its apex to the full cladding. A radius that reaches the cladding leaves no cone. */
export function tipRings(
  radiusUm: number,
  claddingHalfUm: number,
  stated?: { readonly endRadiusUm: number; readonly coneAngleRad: number },
): readonly Ring[] {
  const sine = (halfUm: number) => Math.asin(Math.min(1, halfUm / radiusUm))
  const reach = Math.min(
    stated === undefined ? CAP_HALF_ANGLE : sine(stated.endRadiusUm),
    sine(claddingHalfUm),
  )
  const slope = stated === undefined ? CONE_SLOPE : 1 / Math.tan(stated.coneAngleRad)
  const cap = capRings(radiusUm, reach)
  const last = cap[CAP_RINGS] ?? { zUm: 0, radiusUm: 0 }
  const shoulderUm = Math.max(0, claddingHalfUm - last.radiusUm) * slope
  return shoulderUm > 0 ? [...cap, { zUm: last.zUm - shoulderUm, radiusUm: claddingHalfUm }] : cap
}

/** The properties of an end that matter for contact. */
export interface EndBody {
  /** Diameter of the cladding, or size across of a chip, um. */
  readonly acrossUm: number
  readonly isFibre: boolean
  /** Radius of a lensed tip; undefined without one. */
  readonly tipRadiusUm?: number | undefined
  readonly outline?: Outline | undefined
}

const micrometres = (um: number) => `${Math.round(um * 10) / 10} µm`

/** A cylinder behind the last of its rings. */
const withTail = (rings: readonly Ring[]): readonly Ring[] => {
  const last = rings.at(-1)
  return last === undefined ? rings : [...rings, { ...last, zUm: last.zUm - LENGTH_UM }]
}

function fibreSolid({ acrossUm, tipRadiusUm, outline }: EndBody, face: FaceSlopes): Solid {
  const halfUm = acrossUm / 2
  const stated =
    outline?.kind === 'tapered'
      ? {
          endRadiusUm: Math.min(halfUm, coreValue(outline.endDiameter, 'bodySize') / 2),
          coneAngleRad: coreValue(outline.coneAngle, 'coneAngle'),
        }
      : undefined
  if (tipRadiusUm !== undefined)
    return revolved('lensed tip', withTail(tipRings(tipRadiusUm, halfUm, stated)))
  if (stated === undefined) {
    return revolved(`${micrometres(acrossUm)} cladding`, withTail([{ zUm: 0, radiusUm: halfUm }]), face)
  }
  const { endRadiusUm, coneAngleRad } = stated
  const coneUm = (halfUm - endRadiusUm) / Math.tan(coneAngleRad)
  const cone =
    coneUm > 0
      ? [
          { zUm: 0, radiusUm: endRadiusUm },
          { zUm: -coneUm, radiusUm: halfUm },
        ]
      : [{ zUm: 0, radiusUm: halfUm }]
  return revolved('tapered tip', withTail(cone), face)
}

/** All bodies of an end, described from the middle of its end face. */
export function endSolids(end: EndBody, face: FaceSlopes): readonly Solid[] {
  const { outline, acrossUm } = end
  if (outline?.kind !== 'block') {
    const halfUm = acrossUm / 2
    return end.isFibre
      ? [fibreSolid(end, face)]
      : [box('SSC chip', halfUm, [-halfUm, halfUm], 0, LENGTH_UM, face)]
  }
  const halfWidthUm = coreValue(outline.width, 'bodySize') / 2
  const belowUm = coreValue(outline.below, 'bodySize')
  const aboveUm = coreValue(outline.above, 'bodySize')
  const protrusionUm = outline.protrusion === undefined ? 0 : coreValue(outline.protrusion, 'overhang')
  const overhangUm =
    outline.lidOverhang === undefined ? -protrusionUm : coreValue(outline.lidOverhang, 'overhang')
  const lidFromUm = Math.min(aboveUm, end.isFibre ? acrossUm / 2 : 0)
  return [
    ...(end.isFibre ? [fibreSolid({ ...end, outline: undefined }, face)] : []),
    box('glass block', halfWidthUm, [-belowUm, lidFromUm], -protrusionUm, LENGTH_UM, face),
    ...(aboveUm > lidFromUm
      ? [box('lid of the glass block', halfWidthUm, [lidFromUm, aboveUm], overhangUm, LENGTH_UM, face)]
      : []),
  ]
}

/** The holder of a lens, described from the middle of the lens's last surface, and the lens within its clear aperture. */
export function barrelSolids(apertureUm: number, barrel: Barrel | undefined): readonly Solid[] {
  const disc = (name: string, zUm: number, radiusUm: number) => revolved(name, withTail([{ zUm, radiusUm }]))
  return [
    disc('lens', 0, apertureUm / 2),
    ...(barrel === undefined
      ? []
      : [
          disc(
            'lens barrel',
            coreValue(barrel.barrelOverhang, 'overhang'),
            coreValue(barrel.diameter, 'bodySize') / 2,
          ),
        ]),
  ]
}
