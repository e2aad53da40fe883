// The radius-index table of a fibre, entered as text, with the mode that it guides.

import { useMemo } from 'react'
import type { IndexProfile } from '../../../model/schema/modeShape'
import { InputError } from '../../../numerics/inputError'
import { fixedText } from '../../../numerics/numberText'
import { radialMode } from '../../../optics/index'
import { profileText, readProfile } from './profileText'
import { TableText } from './TableText'

function guidedText(profile: IndexProfile, wavelengthUm: number): string {
  try {
    const mode = radialMode(profile, wavelengthUm)
    return `Guides a mode of effective index ${fixedText(mode.effectiveIndex, 5)}, b ${fixedText(mode.b, 4)}.`
  } catch (error) {
    if (error instanceof InputError) return `Guides no mode: ${error.message}.`
    throw error
  }
}

export function IndexProfileField({
  profile,
  wavelengthUm,
  onCommit,
}: {
  readonly profile: IndexProfile
  readonly wavelengthUm: number
  readonly onCommit: (profile: IndexProfile) => void
}) {
  const guided = useMemo(() => guidedText(profile, wavelengthUm), [profile, wavelengthUm])
  const commit = (text: string) => {
    const read = readProfile(text)
    if (typeof read === 'string') return read
    onCommit(read)
    return ''
  }
  return (
    <TableText
      label="Radius (µm) and index per line; repeat a radius for a step"
      kept={profileText(profile)}
      said={guided}
      onCommit={commit}
    />
  )
}
