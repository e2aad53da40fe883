// The radius-index table of a fibre, entered as text, with the mode that it guides.

import { useEffect, useId, useMemo, useState } from 'react'
import type { IndexProfile } from '../../../model/schema/modeShape'
import { InputError } from '../../../numerics/inputError'
import { fixedText } from '../../../numerics/numberText'
import { radialMode } from '../../../optics/index'
import { profileText, readProfile } from './profileText'

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
  const id = useId()
  const [text, setText] = useState(() => profileText(profile))
  const [complaint, setComplaint] = useState('')
  useEffect(() => setText(profileText(profile)), [profile])
  const guided = useMemo(() => guidedText(profile, wavelengthUm), [profile, wavelengthUm])
  const commit = () => {
    if (text === profileText(profile)) return
    const read = readProfile(text)
    if (typeof read === 'string') setComplaint(read)
    else {
      setComplaint('')
      onCommit(read)
    }
  }
  return (
    <div className="field index-profile">
      <label htmlFor={id}>Radius (µm) and index per line; repeat a radius for a step</label>
      <textarea
        id={id}
        rows={6}
        spellCheck={false}
        value={text}
        aria-invalid={complaint !== ''}
        aria-describedby={`${id}-said`}
        onChange={(event) => setText(event.target.value)}
        onBlur={commit}
      />
      <p id={`${id}-said`} className={complaint === '' ? 'quiet' : 'complaint'}>
        {complaint === '' ? guided : complaint}
      </p>
    </div>
  )
}
