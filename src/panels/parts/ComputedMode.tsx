// The mode of a fibre core at the project's wavelength.

import { coreValue, type Quantity } from '../../model/quantity/quantity'
import type { FibreMode } from '../../model/schema/parts'
import { InputError } from '../../numerics/inputError'
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
    if (error instanceof InputError) return error.message
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
      At {(wavelengthUm * 1000).toFixed(1)} nm: V = {result.V.toFixed(3)}. MFD:{' '}
      {result.bestGaussianMfdUm.toFixed(2)} µm (best-fit Gaussian,{' '}
      {lossDb(result.bestGaussianOverlap).toFixed(3)} dB mismatch), {result.petermann2MfdUm.toFixed(2)} µm
      (Petermann II), {result.petermann1MfdUm.toFixed(2)} µm (Petermann I).
    </p>
  )
}
