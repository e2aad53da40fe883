// A lensed fibre end: the mode that leaves it has its waist at the working distance, in the gas in front.

import type { Path } from '../../../model/issue'
import { coreHalfWidth, coreValue, type Quantity } from '../../../model/quantity/quantity'
import type { LensedTipEntry } from '../../../model/schema/parts'
import { fixedText, plainText } from '../../../numerics/numberText'
import { type LensedTip, lensedTipFocus, lossDb, tipAberrationUm } from '../../../optics/index'
import type { ValidityNote } from '../../results/evaluation'
import type { ChainContext, GuideModel, LineModel, PortReaders } from '../vector/elementModels'
import { findMedium, requireGas } from '../vector/findMedium'
import { constantReader, type Reader, type Values } from '../vector/valueReaders'
import { tipFits } from './tipFits'

const WHY_GAS =
  'a lensed fibre focuses by the index step from glass to air, which is lost in a gel or an adhesive'
/** Usual spots and working distances of tips, um. Common practice, no source. */
const USUAL_SPOT_UM = [2, 6] as const
const USUAL_DISTANCE_UM = [5, 20] as const
/** From this much of aberration at the best Gaussian on, dB, the tip carries a caution. */
const ABERRATION_CAUTION_DB = 0.1
/** Kirchhoff's integral has been compared with the wave equation down to this radius. */
const LEAST_RADIUS_UM = 7

interface TipJoin {
  readonly tipId: string
  readonly elementId: string
  /** The join that follows, and its path. */
  readonly mediumId: string
  readonly joinPath: Path
}

type TipModel = Pick<GuideModel, 'exit' | 'lines' | 'notes'>

function tipEntry(
  context: ChainContext,
  tipId: string,
): { readonly tip: LensedTipEntry; readonly path: Path } {
  const at = context.project.converters.findIndex((each) => each.id === tipId)
  const tip = context.project.converters[at]
  if (tip?.kind !== 'lensed tip') throw new Error(`no lensed tip ${tipId}`)
  return { tip, path: ['converters', at, 'tip'] }
}

/** The tip on a fibre whose flat mode is `fibre`. A gap medium other than a gas in the join that follows is reported with the reason. */
export function lensedTip(context: ChainContext, tipJoin: TipJoin, fibre: PortReaders): TipModel {
  const { tip, path } = tipEntry(context, tipJoin.tipId)
  const found = findMedium(context, tipJoin.mediumId)
  const dry = requireGas(context, found, tipJoin.joinPath, tip.name, WHY_GAS)
  if (!dry) return { exit: fibre, lines: [], notes: [] }
  return tip.tip.kind === 'spot'
    ? typedSpot(context, tip, path, fibre, tipJoin.elementId)
    : groundTip(context, tip, path, fibre, found.index, tipJoin.elementId)
}

/** The end of the stated radius range with the highest back-reflection. The radius affects the back-reflection only: the spot is given. */
function flattestRadius(radius: Quantity | undefined): Reader | null {
  return radius === undefined
    ? null
    : constantReader(coreValue(radius, 'radius') + coreHalfWidth(radius, 'radius'))
}

function typedSpot(
  context: ChainContext,
  tip: LensedTipEntry,
  path: Path,
  fibre: PortReaders,
  elementId: string,
): TipModel {
  if (tip.tip.kind !== 'spot') throw new Error('a tip defined by its spot')
  const { quantity } = context.readers
  const { spotX, spotY, workingDistance } = tip.tip
  const mfdXUm = quantity(spotX, 'mfd', `spot of ${tip.name}`, [...path, 'spotX'])
  const waist = quantity(workingDistance, 'workingDistance', `working distance of ${tip.name}`, [
    ...path,
    'workingDistance',
  ])
  return {
    exit: {
      mfdXUm,
      mfdYUm:
        spotY === undefined ? mfdXUm : quantity(spotY, 'mfd', `spot y of ${tip.name}`, [...path, 'spotY']),
      index: fibre.index,
      waistXUm: waist,
      waistYUm: waist,
      tip: {
        radiusUm: flattestRadius(tip.tip.radius),
        modeMfdXUm: fibre.mfdXUm,
        modeMfdYUm: fibre.mfdYUm,
      },
      ...(fibre.core && { core: fibre.core }),
    },
    lines: [],
    notes: usualNotes(
      tip.name,
      coreValue(spotX, 'mfd'),
      coreValue(workingDistance, 'workingDistance'),
      elementId,
    ),
  }
}

/** Reports data-sheet values outside the usual range of tips. */
function usualNotes(
  name: string,
  spotUm: number,
  distanceUm: number,
  elementId: string,
): readonly ValidityNote[] {
  const check = (what: string, value: number, [from, to]: readonly [number, number]) =>
    value >= from && value <= to
      ? []
      : [
          {
            elementId,
            message: `${name}: ${what} of ${plainText(value, 3)} µm; usual values are ${from} to ${to} µm (common practice). Confirm the value with the supplier.`,
            caution: true,
          },
        ]
  return [
    ...check('a spot', spotUm, USUAL_SPOT_UM),
    ...check('a working distance', distanceUm, USUAL_DISTANCE_UM),
  ]
}

function groundTip(
  context: ChainContext,
  tip: LensedTipEntry,
  path: Path,
  fibre: PortReaders,
  mediumIndex: Reader,
  elementId: string,
): TipModel {
  if (tip.tip.kind !== 'radius') throw new Error('a tip defined by its radius')
  const radius = context.readers.quantity(tip.tip.radius, 'radius', `tip radius of ${tip.name}`, [
    ...path,
    'radius',
  ])
  const at = (v: Values, modeMfd: Reader) => ({
    modeRadiusUm: modeMfd(v) / 2,
    tipRadiusUm: radius(v),
    fibreIndex: fibre.index(v),
    mediumIndex: mediumIndex(v),
    wavelengthUm: context.wavelength(v),
  })
  const nominal = Float64Array.from(context.readers.variables, (variable) => variable.nominal)
  if (fibre.index(nominal) <= mediumIndex(nominal)) {
    context.report({
      path: [...path, 'radius'],
      code: 'range',
      message: `${tip.name} cannot focus: the fibre's index, ${fixedText(fibre.index(nominal), 4)}, is not above that of the medium, ${fixedText(mediumIndex(nominal), 4)}`,
    })
    return { exit: fibre, lines: [], notes: [] }
  }
  const fitsX = tipFits(at(nominal, fibre.mfdXUm))
  const round = fibre.mfdYUm === fibre.mfdXUm
  const fitsY = round ? fitsX : tipFits(at(nominal, fibre.mfdYUm))
  const along = (fits: typeof fitsX, modeMfd: Reader) => (v: Values) => fits.at(at(v, modeMfd))
  const x = along(fitsX, fibre.mfdXUm)
  const y = along(fitsY, fibre.mfdYUm)
  // Both axes of an elliptical mode are treated as the geometric mean of two round ones.
  const share = (of: (v: Values) => number, other: (v: Values) => number): Reader =>
    round ? (v) => lossDb(of(v)) : (v) => (lossDb(of(v)) + lossDb(other(v))) / 2
  const clippingDb = share(
    (v) => x(v).transmission,
    (v) => y(v).transmission,
  )
  const aberrationDb = share(
    (v) => x(v).overlap / x(v).transmission,
    (v) => y(v).overlap / y(v).transmission,
  )
  const line: LineModel = {
    id: `${elementId}/tip clipping`,
    label: 'Clipping at the lensed fibre',
    kind: 'clipping',
    provenance: 'computed',
    elementId,
    note: 'excess reflection of the curved face over that of a flat one, from the integral over the sphere',
    lossDb: clippingDb,
  }
  const mfd = (of: typeof x): Reader => {
    return (v) => 2 * of(v).spotRadiusUm
  }
  const waist = (of: typeof x): Reader => {
    return (v) => of(v).workingDistanceUm
  }
  const [mfdXUm, waistXUm] = [mfd(x), waist(x)]
  return {
    exit: {
      mfdXUm,
      // A round mode has one reader for both axes; what reads it looks once.
      mfdYUm: round ? mfdXUm : mfd(y),
      index: fibre.index,
      waistXUm,
      waistYUm: round ? waistXUm : waist(y),
      tip: {
        radiusUm: radius,
        modeMfdXUm: fibre.mfdXUm,
        modeMfdYUm: fibre.mfdYUm,
        real: { clippingDb, aberrationDb },
      },
      ...(fibre.core && { core: fibre.core }),
      ...(fibre.shape && { shape: fibre.shape }),
    },
    lines: [line],
    notes: focusNotes(tip.name, at(nominal, fibre.mfdXUm), x(nominal), aberrationDb(nominal), elementId),
  }
}

/** The real focus next to the paraxial one; a caution where aberration matters, or the radius is too small for the integral. */
function focusNotes(
  name: string,
  tip: LensedTip,
  real: { readonly spotRadiusUm: number; readonly workingDistanceUm: number },
  aberrationDb: number,
  elementId: string,
): readonly ValidityNote[] {
  const paraxial = lensedTipFocus(tip)
  const focus = (of: typeof real) =>
    `${fixedText(2 * of.spotRadiusUm, 2)} µm at ${fixedText(of.workingDistanceUm, 1)} µm`
  const short = tipAberrationUm(tip)
  const rays =
    short === null
      ? 'Rays at the 1/e² edge of the mode are totally reflected'
      : `Rays at the 1/e² edge of the mode cross the axis ${fixedText(short, 1)} µm short of the paraxial focus`
  const message = `${name}: best-fit Gaussian ${focus(real)} by the integral over the sphere; paraxial optics would give ${focus(paraxial)}.`
  const aberration =
    aberrationDb > ABERRATION_CAUTION_DB
      ? ` ${rays}, and spherical aberration adds ${fixedText(aberrationDb, 2)} dB to the coupling loss.`
      : ''
  const small =
    tip.tipRadiusUm < LEAST_RADIUS_UM
      ? ` Below a radius of ${LEAST_RADIUS_UM} µm the integral itself is unreliable: use a measured spot.`
      : ''
  const caution = aberration !== '' || small !== ''
  return [{ elementId, message: message + aberration + small, ...(caution && { caution }) }]
}
