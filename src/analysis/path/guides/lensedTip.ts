// A lensed fibre end: the mode that leaves it has its waist at the working distance, in the gas in front.

import type { Path } from '../../../model/issue'
import { coreValue } from '../../../model/quantity/quantity'
import type { LensedTipEntry } from '../../../model/schema/parts'
import {
  apertureTransmission,
  coupledTruncation,
  lensedTipFocus,
  lossDb,
  rayleighRangeUm,
  tipAberrationUm,
  tipApertureRadiusUm,
} from '../../../optics/index'
import type { ValidityNote } from '../../results/evaluation'
import { findMedium, requireGas } from '../vector/findMedium'
import type { ChainContext, GuideModel, LineModel, PortReaders } from '../vector/models'
import type { Reader, Values } from '../vector/readers'

const WHY_GAS = 'a tip focuses by the step of index from glass to air, which a filling takes away'
/** Spots and working distances that tips are made with, um. Common practice, no source. */
const USUAL_SPOT_UM = [2, 6] as const
const USUAL_DISTANCE_UM = [5, 20] as const
/** Aberration is spoken of from this share of the spot's Rayleigh range. Common practice, no source. */
const ABERRATION_SHARE = 0.25

export interface TipPlace {
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

/** The tip on a fibre whose flat mode is `fibre`. A filling in the join that follows is reported with the reason. */
export function lensedTip(context: ChainContext, place: TipPlace, fibre: PortReaders): TipModel {
  const { tip, path } = tipEntry(context, place.tipId)
  const found = findMedium(context, place.mediumId)
  const dry = requireGas(context, found, place.joinPath, `lensed tip ${tip.name}`, WHY_GAS)
  if (!dry) return { exit: fibre, lines: [], notes: [] }
  return tip.tip.kind === 'spot'
    ? typedSpot(context, tip, path, fibre, place.elementId)
    : groundTip(context, tip, path, fibre, found.index, place.elementId)
}

function typedSpot(
  context: ChainContext,
  tip: LensedTipEntry,
  path: Path,
  fibre: PortReaders,
  elementId: string,
): TipModel {
  if (tip.tip.kind !== 'spot') throw new Error('a tip known by its spot')
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
      tip: { radiusUm: null, modeMfdXUm: fibre.mfdXUm, modeMfdYUm: fibre.mfdYUm },
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

/** Says where a data sheet's figures are outside what tips are made with. */
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
            message: `${name}: ${what} of ${Number(value.toPrecision(3))} µm; tips usually have ${from} to ${to} µm (common practice). Confirm it with the supplier.`,
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
  if (tip.tip.kind !== 'radius') throw new Error('a tip known by its radius')
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
      message: `lensed tip ${tip.name} cannot focus: the fibre's index, ${fibre.index(nominal).toFixed(4)}, is not above that of the medium, ${mediumIndex(nominal).toFixed(4)}`,
    })
    return { exit: fibre, lines: [], notes: [] }
  }
  const clipping: Reader = (v) => {
    const along = (modeMfd: Reader) => {
      const own = at(v, modeMfd)
      return apertureTransmission({
        apertureRadiusUm: tipApertureRadiusUm(own),
        beamRadiusUm: own.modeRadiusUm,
      })
    }
    return lossDb(coupledTruncation(Math.sqrt(along(fibre.mfdXUm) * along(fibre.mfdYUm))))
  }
  const line: LineModel = {
    id: `${elementId}/tip clipping`,
    label: 'Clipping at the lensed tip',
    kind: 'clipping',
    provenance: 'computed',
    elementId,
    lossDb: clipping,
  }
  const along = (modeMfd: Reader) => ({
    mfd: (v: Values) => 2 * lensedTipFocus(at(v, modeMfd)).spotRadiusUm,
    waist: (v: Values) => lensedTipFocus(at(v, modeMfd)).workingDistanceUm,
  })
  const x = along(fibre.mfdXUm)
  // A round mode has one reader for both axes; what reads it looks once.
  const y = fibre.mfdYUm === fibre.mfdXUm ? x : along(fibre.mfdYUm)
  return {
    exit: {
      mfdXUm: x.mfd,
      mfdYUm: y.mfd,
      index: fibre.index,
      waistXUm: x.waist,
      waistYUm: y.waist,
      tip: { radiusUm: radius, modeMfdXUm: fibre.mfdXUm, modeMfdYUm: fibre.mfdYUm },
      ...(fibre.core && { core: fibre.core }),
      ...(fibre.shape && { shape: fibre.shape }),
    },
    lines: [line],
    notes: aberrationNotes(tip.name, at(nominal, fibre.mfdXUm), elementId),
  }
}

function aberrationNotes(
  name: string,
  tip: Parameters<typeof lensedTipFocus>[0],
  elementId: string,
): readonly ValidityNote[] {
  const { spotRadiusUm, workingDistanceUm } = lensedTipFocus(tip)
  const rayleigh = rayleighRangeUm({
    waistRadiusUm: spotRadiusUm,
    wavelengthUm: tip.wavelengthUm,
    index: tip.mediumIndex,
  })
  const computed = `${name}: spot ${(2 * spotRadiusUm).toFixed(2)} µm at ${workingDistanceUm.toFixed(1)} µm, by paraxial optics`
  const short = tipAberrationUm(tip)
  if (short !== null && short < ABERRATION_SHARE * rayleigh) return [{ elementId, message: `${computed}.` }]
  const why =
    short === null
      ? 'rays at the 1/e² edge of the mode are totally reflected at so small a radius'
      : `rays at the 1/e² edge of the mode cross the axis ${short.toFixed(1)} µm short of it, against a Rayleigh range of ${rayleigh.toFixed(1)} µm`
  return [
    {
      elementId,
      message: `${computed}; ${why}, so spherical aberration will widen the spot. Use a measured spot where there is one.`,
      caution: true,
    },
  ]
}
