// A fact that the file does not give, or gives and that may be corrected.

import { useEffect, useId, useState } from 'react'
import type { Facts, NeededFact } from '../../../measure/index'
import { coreValue, type Quantity, quantityOf } from '../../../model/quantity/quantity'
import { RULES } from '../../../model/quantity/quantityRules'
import { readPlainQuantityText } from '../../../model/quantity/quantityText'
import { unitLabel } from '../../../model/quantity/units'
import type { FibreEntry } from '../../../model/schema/parts'
import type { Project } from '../../../model/schema/project'
import { byId } from '../../../model/words/byId'
import { InputError } from '../../../numerics/inputError'
import { rounded } from '../../../numerics/numberText'
import { stepIndexMode } from '../../../optics/index'
import { ChoiceField } from '../../../ui/fields/ChoiceField'
import { numberText } from '../../../ui/fields/useQuantityInput'

/** What is known before any entry: the file's own facts, and the project's wavelength. */
export function firstFacts(needed: readonly NeededFact[], project: Project): Facts {
  return Object.fromEntries(
    needed.flatMap(({ name, found, breach }) => {
      if (found !== null) return [[name, found]]
      return name === 'wavelength' && breach === null ? [[name, project.requirements.wavelength]] : []
    }),
  )
}

/** The mode of a fibre as a probe: its diameter as entered, or computed from its core. */
function probeOf(fibre: FibreEntry, wavelengthUm: number): Quantity | null {
  if (fibre.mode.kind === 'mfd') return { ...fibre.mode.mfdX }
  try {
    const mode = stepIndexMode({
      coreRadiusUm: coreValue(fibre.mode.coreDiameter, 'coreDiameter') / 2,
      na: coreValue(fibre.mode.na, 'na'),
      wavelengthUm,
    })
    return quantityOf(rounded(mode.bestGaussianMfdUm, 4), 'um', 'computed')
  } catch (error) {
    if (error instanceof InputError) return null
    throw error
  }
}

export function FactField({
  fact,
  value,
  project,
  onSet,
}: {
  readonly fact: NeededFact
  readonly value: Quantity | undefined
  readonly project: Project
  readonly onSet: (value: Quantity | undefined) => void
}) {
  const id = useId()
  const shown = value === undefined ? '' : (value.typed ?? numberText(value))
  const [text, setText] = useState(shown)
  const [complaint, setComplaint] = useState('')
  useEffect(() => {
    if (shown !== '') setText(shown)
  }, [shown])
  const commit = () => {
    if (text === shown) return
    const read = readPlainQuantityText(text, RULES[fact.rule])
    if (read?.ok) {
      setComplaint('')
      onSet(quantityOf(read.value.value, read.value.unit, 'data sheet'))
    } else {
      const why = read?.issues.map((issue) => issue.message).join(' ')
      setComplaint(why ?? `${fact.label} is "${text}", which is not a number with a unit`)
      onSet(undefined)
    }
  }
  const origin =
    fact.breach !== null
      ? `In the file, the ${fact.breach}. ${fact.question}`
      : fact.found !== null
        ? 'From the file.'
        : fact.name === 'wavelength'
          ? 'Not in the file; taken from Requirements.'
          : fact.question
  const wavelengthUm = coreValue(project.requirements.wavelength, 'wavelength')
  return (
    <>
      <div className="field">
        <label htmlFor={id}>{fact.label}</label>
        <input
          id={id}
          value={text}
          autoComplete="off"
          placeholder={`number, ${unitLabel(RULES[fact.rule].unit)}`}
          aria-invalid={complaint !== ''}
          aria-describedby={`${id}-origin`}
          onChange={(event) => setText(event.target.value)}
          onBlur={commit}
          onKeyDown={(event) => {
            if (event.key === 'Enter') commit()
          }}
        />
        <p id={`${id}-origin`} className={complaint === '' ? 'quiet origin' : 'complaint'}>
          {complaint === '' ? origin : complaint}
        </p>
      </div>
      {fact.name === 'probeMfd' && project.fibres.length > 0 && (
        <ChoiceField
          label="or use a project fibre"
          value=""
          choices={[
            { value: '', label: 'choose' },
            ...project.fibres.map((fibre) => ({ value: fibre.id, label: fibre.name })),
          ]}
          onChoose={(fibreId) => {
            const fibre = byId(project.fibres, fibreId)
            const probe = fibre === undefined ? null : probeOf(fibre, wavelengthUm)
            if (probe === null) return
            setComplaint('')
            onSet(probe)
          }}
        />
      )}
    </>
  )
}
