// An index map includes the index of the surrounding glass. If the cross-section has a different one there, the index step of
// the core is not that of the map.

import type { CoreEntry, CrossSectionEntry } from '../../model/schema/crossSection'
import { fixedText, nmOf } from '../../numerics/numberText'
import { type CoreProfiles, coreProfiles } from './coreProfile'
import { mapPeakStep } from './opticsSection'

/** Share of the step of the map that the step of the core may differ by. Own choice: the mode changes by half of it or less. */
const STEP_SHARE = 0.01

/**
 * The warning where host and step both disagree with the map; null where they agree, where the step is entered over wavelength, or where
 * the peak index makes up for the other host.
 */
export function mapHostWarning(
  { map, profile, stepOverWavelength, name }: CoreEntry,
  { peakIndex, hostIndex }: CoreProfiles,
  wavelengthUm: number,
): string | null {
  if (profile !== 'index map' || map === undefined || stepOverWavelength !== undefined) return null
  const own = mapPeakStep(map)
  const step = peakIndex - hostIndex
  const off = [step - own, map.background - hostIndex]
  if (off.some((each) => Math.abs(each) <= STEP_SHARE * Math.abs(own))) return null
  return `${name}: the index around the core is ${fixedText(map.background, 5)} in ${map.fileName} but ${fixedText(hostIndex, 5)} in the cross-section at ${nmOf(wavelengthUm)} nm, so the index step is ${fixedText(step, 5)} instead of ${fixedText(own, 5)}. Correct the material around the core, or enter the index step as a function of wavelength.`
}

/** The warnings of all cores of a cross-section. Throws InputError where it has no index at the wavelength. */
export function mapHostWarnings(section: CrossSectionEntry, wavelengthUm: number): readonly string[] {
  return section.cores.flatMap((core) => {
    if (core.profile !== 'index map') return []
    const profiles = coreProfiles(section, core.id, wavelengthUm)
    return (profiles && mapHostWarning(core, profiles, wavelengthUm)) ?? []
  })
}
