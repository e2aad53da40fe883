// The mode of a fibre core at the project's wavelength.

import { coreValue, type Quantity } from '../../model/quantity/quantity'
import type { FibreMode } from '../../model/schema/parts'
import { InputError } from '../../numerics/inputError'
import { fixedText } from '../../numerics/numberText'
import { refusalText } from '../../numerics/refusalText'
import { lossDb, type StepIndexMode, stepIndexMode } from '../../optics/index'

type CoreMode = Extract<FibreMode, { kind: 'core' }>

function solved(mode: CoreMode, wavelengthUm: number): StepIndexMode | string {
  try {
    return stepIndexMode({
      coreRadiusUm: coreValue(mode.coreDiameter, 'coreDiameter') / 2,
      na: coreValue(mode.na, 'na'),
      wavelengthUm,
    })
  } catch (error) {
    if (error instanceof InputError) return refusalText(error)
    throw error
  }
}

export function ComputedMode({
  mode,
  wavelength,
}: {
  readonly mode: CoreMode
  readonly wavelength: Quantity
}) {
  const wavelengthUm = coreValue(wavelength, 'wavelength')
  const result = solved(mode, wavelengthUm)
  if (typeof result === 'string') return <p className="complaint wide">No usable mode: {result}</p>
  return (
    <p className="quiet wide">
      At {fixedText(wavelengthUm * 1000, 1)} nm: V = {fixedText(result.V, 3)}. MFD:{' '}
      {fixedText(result.bestGaussianMfdUm, 2)} µm (best-fit Gaussian,{' '}
      {fixedText(lossDb(result.bestGaussianOverlap), 3)} dB mismatch), {fixedText(result.petermann2MfdUm, 2)}{' '}
      µm (Petermann II), {fixedText(result.petermann1MfdUm, 2)} µm (Petermann I).
    </p>
  )
}
