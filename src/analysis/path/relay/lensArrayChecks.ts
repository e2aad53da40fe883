// Lenses and devices of several channels side by side: an aperture must fit into its pitch, or span the row.

import { coreValue } from '../../../model/quantity/quantity'
import type { Device } from '../../../model/schema/candidate'
import type { LensEntry } from '../../../model/schema/parts'
import type { Project } from '../../../model/schema/project'
import { plainText, rounded } from '../../../numerics/numberText'

/** What does not fit, in words; null where it fits or there is one channel. */
export function lensPitchFault(project: Project, lens: LensEntry): string | null {
  const { channels, pitch } = project.requirements
  if (channels === 1) return null
  const apertureUm = coreValue(lens.clearAperture, 'aperture')
  const pitchUm = coreValue(lens.pitch ?? pitch, 'pitch')
  if (apertureUm <= pitchUm) return null
  const cause = `because the clear aperture of ${plainText(apertureUm, 4)} µm is wider than the ${lens.pitch === undefined ? "chip's " : ''}pitch of ${plainText(pitchUm, 4)} µm`
  return lens.pitch === undefined
    ? `${lens.name}: ${channels} single lenses do not fit side by side, ${cause}. Use an array of smaller lenses, or fan the channels out first.`
    : `${lens.name}: neighbouring lenses of the array would overlap, ${cause}.`
}

/** A device for several channels must span their row, or fit into their pitch one by one. */
export function deviceRowFault({ requirements }: Project, device: Device): string | null {
  const { channels } = requirements
  if (channels === 1) return null
  const apertureUm = coreValue(device.clearAperture, 'aperture')
  const pitchUm = coreValue(requirements.pitch, 'pitch')
  const rowUm = (channels - 1) * pitchUm
  if (apertureUm > rowUm || apertureUm <= pitchUm) return null
  const um = (value: number) => rounded(value, 4)
  return `${device.name}: its clear aperture of ${um(apertureUm)} µm neither spans the row of ${channels} channels, ${um(rowUm)} µm, nor fits into their pitch of ${um(pitchUm)} µm. Use a wider one, or fan the channels out first.`
}
