// The position of a fibre in a V-groove and its error: passive placement by the width and the angle of the groove.

import { coreValue, type Quantity } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import { spreadOf } from '../../model/quantity/spread'
import type { VGroove } from '../../model/schema/build/chipEdge'
import type { FibreEntry } from '../../model/schema/parts'

/** Side wall of a groove etched along the slow planes of (100) silicon: arctan of the square root of 2, rad. */
export const SILICON_WALL_RAD = Math.atan(Math.SQRT2)

/**
 * Height of a fibre's middle above the surface that a groove is etched into, um: r / cos a - W tan(a) / 2 while both walls are touched
 * below the edges; a fibre too thick for that rests on the edges. Negative below the surface. Source: plane geometry.
 */
export function grooveHeightUm(radiusUm: number, widthUm: number, wallRad: number): number {
  const half = widthUm / 2
  if (radiusUm * Math.sin(wallRad) <= half) return radiusUm / Math.cos(wallRad) - half * Math.tan(wallRad)
  return Math.sqrt(Math.max(0, radiusUm ** 2 - half ** 2))
}

/** Width at which the fibre's middle comes to a height, um, while it touches the walls; below 0 where none does. */
export function grooveWidthForUm(radiusUm: number, heightUm: number, wallRad: number): number {
  return (2 * (radiusUm / Math.cos(wallRad) - heightUm)) / Math.tan(wallRad)
}

export interface PlacementError {
  readonly label: string
  /** Half width of its effect on the position of the core, um. */
  readonly plusMinusUm: number
}

interface GroovePlacement {
  /** Of the core above the groove's surface, um. */
  readonly coreHeightUm: number
  /** Of the core against the waveguide, um: the joint's offsets. */
  readonly offsetXUm: number
  readonly offsetYUm: number
  readonly errorsX: readonly PlacementError[]
  readonly errorsY: readonly PlacementError[]
  readonly restsOnEdges: boolean
  /** Opening that would bring the core to the waveguide's height, um; null where no groove does. */
  readonly idealWidthUm: number | null
}

export const rssUm = (errors: readonly PlacementError[]): number =>
  Math.hypot(...errors.map(({ plusMinusUm }) => plusMinusUm))

export const worstUm = (errors: readonly PlacementError[]): number =>
  errors.reduce((sum, { plusMinusUm }) => sum + plusMinusUm, 0)

const halfWidth = (quantity: Quantity, rule: RuleName) => spreadOf(quantity, rule).halfWidth
/** Relative step of the difference quotients. */
const STEP = 1e-5

/** Where the groove puts the fibre, and what each tolerance does to that in first order. */
export function groovePlacement(groove: VGroove, fibre: FibreEntry): GroovePlacement {
  const diameterUm = coreValue(fibre.claddingDiameter, 'claddingDiameter')
  const widthUm = coreValue(groove.grooveWidth, 'bodySize')
  const wallRad = coreValue(groove.wallAngle, 'wallAngle')
  const surfaceUm = coreValue(groove.grooveSurface, 'edgeDepth')
  const height = (d: number, w: number, a: number) => grooveHeightUm(d / 2, w, a)
  const coreHeightUm = height(diameterUm, widthUm, wallRad)
  const slope = (at: number, f: (value: number) => number) =>
    (f(at * (1 + STEP)) - f(at * (1 - STEP))) / (2 * at * STEP)
  const error = (label: string, quantity: Quantity | undefined, rule: RuleName, slopeOf: number) => {
    const plusMinusUm = quantity === undefined ? 0 : halfWidth(quantity, rule) * Math.abs(slopeOf)
    return plusMinusUm > 0 ? [{ label, plusMinusUm }] : []
  }
  // The error of the core in the cladding may point anywhere: its whole length is the half width on either axis.
  const eccentricUm = fibre.concentricity === undefined ? 0 : coreValue(fibre.concentricity, 'concentricity')
  const eccentric =
    eccentricUm > 0 ? [{ label: 'Core-cladding concentricity', plusMinusUm: eccentricUm }] : []
  const idealWidthUm = grooveWidthForUm(diameterUm / 2, surfaceUm, wallRad)
  return {
    coreHeightUm,
    offsetXUm: coreValue(groove.groovePosition, 'offset'),
    offsetYUm: coreHeightUm - surfaceUm,
    errorsX: [...error('Groove position', groove.groovePosition, 'offset', 1), ...eccentric],
    errorsY: [
      ...error(
        'Cladding diameter',
        fibre.claddingDiameter,
        'claddingDiameter',
        slope(diameterUm, (d) => height(d, widthUm, wallRad)),
      ),
      ...error(
        'Groove width',
        groove.grooveWidth,
        'bodySize',
        slope(widthUm, (w) => height(diameterUm, w, wallRad)),
      ),
      ...error(
        'Sidewall angle',
        groove.wallAngle,
        'wallAngle',
        slope(wallRad, (a) => height(diameterUm, widthUm, a)),
      ),
      ...error('Groove surface below the waveguide', groove.grooveSurface, 'edgeDepth', 1),
      ...eccentric,
    ],
    restsOnEdges: (diameterUm / 2) * Math.sin(wallRad) > widthUm / 2,
    idealWidthUm: idealWidthUm > 0 ? idealWidthUm : null,
  }
}
