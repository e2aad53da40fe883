// Faults that make a relay impossible, and limits beyond which its numbers are unreliable.

import type { Path } from '../../../model/issue'
import type { RelayElement } from '../../../model/schema/candidate'
import type { Project } from '../../../model/schema/project'
import { fixedText, significantText } from '../../../numerics/numberText'
import { backFocalDistanceUm, PARAXIAL_LIMIT_RAD, rayleighRangeUm } from '../../../optics/index'
import type { ValidityNote } from '../../results/evaluation'
import { staysParallel } from '../faces/parallelBeam'
import type { ChainContext } from '../vector/elementModels'
import type { Values } from '../vector/valueReaders'
import { throughAperture } from './clipping'
import { deviceRowFault, lensPitchFault } from './lensArrayChecks'
import type { LensReaders } from './lensReaders'
import { collimatedBeam, type RelayState, relayState } from './relayOptics'
import type { RelayAt, RelayReader } from './relayReader'

/** Coupled truncation neglects edge diffraction, and is trusted for transmissions above this. */
const CLIPPING_TRUST = 0.9
/** A smaller image is refused: far below any wavelength. */
const LEAST_IMAGE_UM = 0.1
/** An end face so many focal distances away is not where the lens collimates. */
const FAR_FROM_FOCUS = 2
/** Clipping is reported from this loss of power. */
const CLIPPING_SPOKEN = 0.999

/** A focus inside the glass, no focus at all, or a device longer than its stretch: nothing to compute. */
export function reportRelayFaults(
  context: ChainContext,
  element: RelayElement,
  path: Path,
  relay: RelayReader,
): void {
  const nominal = Float64Array.from(context.readers.variables, (variable) => variable.nominal)
  const lenses: readonly (readonly [LensReaders, 'lens1Id' | 'lens2Id', string])[] = [
    [relay.lens1, 'lens1Id', 'lens 1'],
    [relay.lens2, 'lens2Id', 'lens 2'],
  ]
  for (const [readers, field, position] of lenses) {
    const matrix = readers.matrix(nominal)
    const { name } = readers.lens
    if (!(matrix.c < 0)) {
      context.report({
        path: [...path, field],
        code: 'range',
        message: `${position}, ${name}, is not a converging lens: its focal length is ${matrix.c === 0 ? 'infinite' : `${fixedText(-1 / matrix.c, 0)} µm`}; must be above 0`,
        fix: 'Use another radius or a glass of higher index.',
      })
      continue
    }
    // Lens 1 meets a diverging beam: its working distance is the front focal distance, -d / c; lens 2's is -a / c.
    const roomUm = field === 'lens1Id' ? -matrix.d / matrix.c : backFocalDistanceUm(matrix)
    if (roomUm <= 0) {
      context.report({
        path: [...path, field],
        code: 'range',
        message: `${position}, ${name}, has its focus ${fixedText(Math.abs(roomUm), 1)} µm inside the glass (focal length ${fixedText(-1 / matrix.c, 1)} µm); the end face needs a working distance above 0`,
        fix: 'Use a longer focal length, a thinner lens or a lower index.',
      })
    }
  }
  const geometry = relay.placed(nominal)
  const state = relayState(geometry)
  const imageUm = 2 * Math.min(state.imageX.waistRadiusUm, state.imageY.waistRadiusUm)
  if (imageUm < LEAST_IMAGE_UM) {
    const far = farFromFocus(relay, state, nominal)
    context.report({
      path: [...path, 'lens2Id'],
      code: 'range',
      message:
        `the relay would focus to ${significantText(imageUm, 2)} µm, below the diffraction limit; must be ${LEAST_IMAGE_UM} µm or more. ${far.join(' ')}`.trim(),
      fix: 'Enter distances near the focal lengths, or use longer focal lengths.',
    })
  }
  const lengthUm = relay.device?.lengthUm(nominal) ?? 0
  const { stretchUm } = geometry
  if (lengthUm > stretchUm) {
    context.report({
      path: [...path, 'device', 'length'],
      code: 'range',
      message: `${element.device?.name ?? 'the component'} is ${fixedText(lengthUm / 1000, 2)} mm long, and the collimated section only ${fixedText(stretchUm / 1000, 2)} mm`,
      fix: 'Lengthen the collimated section.',
    })
  }
}

/** Which lens is too short for the distance to its end face, in words. */
function farFromFocus(
  relay: RelayReader,
  { frontGapUm, backGapUm }: Pick<RelayState, 'frontGapUm' | 'backGapUm'>,
  v: Values,
): readonly string[] {
  const ends = [
    ['Lens 1', relay.lens1, frontGapUm],
    ['Lens 2', relay.lens2, backGapUm],
  ] as const
  return ends.flatMap(([position, { lens, matrix }, gapUm], i) => {
    const { a, c, d } = matrix(v)
    const focalUm = -(i === 0 ? d : a) / c
    return focalUm > 0 && gapUm > FAR_FROM_FOCUS * focalUm
      ? [
          `${position}, ${lens.name}, has its focus at ${fixedText(focalUm, 1)} µm, and the end face is at ${fixedText(gapUm, 1)} µm: its focal length is too short for that working distance.`,
        ]
      : []
  })
}

/** Notes and cautions on this relay. */
export function relayNotes(
  project: Project,
  element: RelayElement,
  relay: RelayReader,
  { numbers, state }: RelayAt,
  v: Values,
): readonly ValidityNote[] {
  const lenses = relay.lens1.lens.id === relay.lens2.lens.id ? [relay.lens1] : [relay.lens1, relay.lens2]
  const notes: string[] = []
  const cautions: string[] = [
    ...farFromFocus(relay, state, v),
    ...lenses.flatMap(({ lens }) => lensPitchFault(project, lens) ?? []),
    ...(element.device === undefined ? [] : [deviceRowFault(project, element.device) ?? []].flat()),
  ]
  const apertures: readonly (readonly [string, number, typeof state.lens1])[] = [
    [relay.lens1.lens.name, relay.lens1.apertureDiameterUm(v), state.lens1],
    [element.device?.name ?? '', relay.device?.apertureDiameterUm(v) ?? Number.MAX_VALUE, state.device],
    [relay.lens2.lens.name, relay.lens2.apertureDiameterUm(v), state.lens2],
  ]
  for (const [name, diameterUm, beam] of apertures) {
    const through = throughAperture(diameterUm, beam)
    if (through >= CLIPPING_SPOKEN) continue
    const beamUm = 2 * Math.max(beam.radiusXUm, beam.radiusYUm)
    const doubt =
      through < CLIPPING_TRUST ? '; edge diffraction is neglected, but matters with this much clipping' : ''
    const list = through < CLIPPING_TRUST ? cautions : notes
    list.push(
      `${name}: the clear aperture of ${fixedText(diameterUm, 0)} µm clips ${fixedText((1 - through) * 100, through < CLIPPING_TRUST ? 0 : 2)} % of the power of the ${fixedText(beamUm, 0)} µm beam${doubt}.`,
    )
  }
  const { imageX } = state
  const collimated = collimatedBeam(numbers.geometry, state)
  const rayleigh = rayleighRangeUm(collimated)
  const parallel = staysParallel({ stretchUm: state.stretchUm, collimatedRayleighUm: rayleigh })
  const across = `${fixedText(2 * collimated.waistRadiusUm, 0)} µm across at its waist, Rayleigh range ${significantText(rayleigh / 1000, 2)} mm, section ${fixedText(state.stretchUm / 1000, 1)} mm`
  if (parallel) notes.push(`Collimated beam ${across}.`)
  else {
    cautions.push(
      `Beam between the lenses ${across}: the section is longer than twice the Rayleigh range, so the beam does not stay collimated. Choose focal lengths in the ratio of the modes, or a shorter section.`,
    )
  }
  const traced = relay.lens1.real !== null || relay.lens2.real !== null
  const defocus = imageX.waistDistanceUm - state.backGapUm
  // Aberrations move the best focus of traced lenses by more than that.
  if (!traced && Math.abs(defocus) > rayleighRangeUm(imageX)) {
    cautions.push(
      `The image lies ${fixedText(Math.abs(defocus), 0)} µm ${defocus > 0 ? 'behind' : 'in front of'} the chip-side face; its Rayleigh range is ${fixedText(rayleighRangeUm(imageX), 1)} µm. Find the optimum distances.`,
    )
  }
  const steep = Math.atan(
    numbers.geometry.wavelengthUm /
      (Math.PI *
        numbers.mediumIndex *
        Math.min(numbers.near.mfdXUm, numbers.near.mfdYUm, numbers.far.mfdXUm, numbers.far.mfdYUm) *
        0.5),
  )
  if (steep > PARAXIAL_LIMIT_RAD) {
    notes.push(
      `The smaller mode of the relay diverges with a half-angle of ${fixedText(steep, 2)} rad, beyond the paraxial limit of ${PARAXIAL_LIMIT_RAD} rad; ${traced ? 'the aberration line of the budget includes the difference' : 'expect an error of a few per cent'}.`,
    )
  }
  if (element.device?.isolation !== undefined && project.requirements.direction === 'both') {
    cautions.push(
      `${element.device.name}: light travels in both directions, but an isolator transmits in one only. The loss given is for the forward direction; in the reverse direction it is ${element.device.isolation.value} dB higher.`,
    )
  }
  const faceless = [relay.lens1, relay.lens2].filter(({ lens }) => lens.shape.kind === 'thin')
  const left = [
    ...new Set(faceless.map(({ lens }) => `the faces of ${lens.name}, whose shape is not given`)),
    ...(element.device === undefined ? [] : [`the faces of ${element.device.name}`]),
  ]
  if (left.length > 0) notes.push(`Not included in the return loss: ${left.join('; ')}.`)
  return [
    ...cautions.map((message) => ({ elementId: element.id, message, caution: true })),
    ...notes.map((message) => ({ elementId: element.id, message })),
  ]
}
