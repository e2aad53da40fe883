// Notes and cautions on the aberration of a relay.

import { fixedText } from '../../../numerics/numberText'
import type { ValidityNote } from '../../results/evaluation'
import type { RelayAberration } from './relayAberration'
import type { RelayReader } from './relayReader'

/** From this much on the aberration is a caution, dB. */
const CAUTION_DB = 0.1

export function aberrationNotes(
  elementId: string,
  { lens1, lens2 }: RelayReader,
  aberration: RelayAberration | null,
  differenceDb: number,
): readonly ValidityNote[] {
  const notes: ValidityNote[] = []
  const corrected = [
    ...new Set([lens1, lens2].filter(({ real }) => real === null).map(({ lens }) => lens.name)),
  ]
  if (corrected.length > 0) {
    const message = `${corrected.join('; ')}: defined by focal length only, assumed free of aberration. Enter the radii, conic constant and aspheric coefficients of the data sheet to have them traced.`
    notes.push({ elementId, message })
  }
  if (aberration === null) return notes
  if (aberration.nominal() === null) {
    const message =
      'Aberration: no ray passes through the lenses as specified, so the relay is computed paraxially.'
    return [...notes, { elementId, message, caution: true }]
  }
  const qualities = aberration.qualities()
  const said = [lens1, lens2].flatMap(({ lens }, i) => {
    const quality = qualities[i]
    return quality == null
      ? []
      : [
          `${lens.name}: ${fixedText(quality.rmsUm, 3)} µm rms, Strehl ratio ${fixedText(quality.strehl, 3)} at best focus`,
        ]
  })
  // Distances set for the real lenses are off focus by paraxial optics, which then looks worse than it is.
  const large = differenceDb > CAUTION_DB
  const message =
    `Aberration: ray tracing through the real lenses shows the joint to be ${fixedText(Math.abs(differenceDb), 2)} dB ${differenceDb < 0 ? 'better' : 'worse'} than in paraxial optics (${said.join('; ')}).${large ? ' Apply the optimum distances, which are found with the real lenses, or use lenses of weaker curvature.' : ''} ${aberration.moves()}`.trimEnd()
  return [...notes, { elementId, message, ...(large && { caution: true }) }]
}
