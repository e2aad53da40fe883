// The radius-index table of a fibre, entered as text, with the mode that it guides.

import { useMemo } from 'react'
import type { IndexProfile } from '../../../model/schema/modeShape'
import { InputError } from '../../../numerics/inputError'
import { fixedText } from '../../../numerics/numberText'
import { refusalText } from '../../../numerics/refusalText'
import { radialMode } from '../../../optics/index'
import { profileText, readProfile } from './profileText'
import { TableText } from './TableText'

function guidedText(profile: IndexProfile, wavelengthUm: number): string {
  try {
    const mode = radialMode(profile, wavelengthUm)
    return `Guides a mode with effective index ${fixedText(mode.effectiveIndex, 5)} and normalised propagation constant b = ${fixedText(mode.b, 4)}.`
  } catch (error) {
    if (error instanceof InputError) return `No guided mode: ${refusalText(error)}.`
    throw error
  }
}

export function IndexProfileField({
  owner,
  profile,
  wavelengthUm,
  onCommit,
}: {
  /** Id of the fibre. */
  readonly owner: string
  readonly profile: IndexProfile
  readonly wavelengthUm: number
  readonly onCommit: (profile: IndexProfile) => void
}) {
  const guided = useMemo(() => guidedText(profile, wavelengthUm), [profile, wavelengthUm])
  const read = (text: string) => {
    const found = readProfile(text)
    return typeof found === 'string' ? found : () => onCommit(found)
  }
  return (
    <TableText
      draft={`index profile ${owner}`}
      label="Radius (µm) and index per line; repeat a radius for a step"
      kept={profileText(profile)}
      said={guided}
      read={read}
    />
  )
}
