// Loss of TE and TM over a band.

import { type Result, success } from '../../model/issue'
import { coreValue } from '../../model/quantity/quantity'
import type { Project } from '../../model/schema/project'
import { type CompiledCandidate, compileCandidate } from '../path/compileCandidate'
import { shownBand, wavelengthsUm, withinData } from './band'
import { polarisationLoss } from './polarisationLoss'

export interface PolarisationSpectrum {
  readonly wavelengthsUm: Float64Array
  readonly teDb: Float64Array
  readonly tmDb: Float64Array
  readonly greatestDb: number
  readonly greatestUm: number
}

const CURVE_POINTS = 81

/** TE and TM over a band, single passes; refused as `spectrum` is. */
export function polarisationSpectrum(
  project: Project,
  candidateId: string,
  bandUm: readonly [fromUm: number, toUm: number] = shownBand(project),
): Result<PolarisationSpectrum> {
  const result = compileCandidate(project, candidateId, { modes: 'tabled', bandUm })
  if (!result.ok) return result
  return withinData(bandUm, () => success(sweep(project, result.value, bandUm)))
}

function sweep(
  project: Project,
  compiled: CompiledCandidate,
  bandUm: readonly [fromUm: number, toUm: number],
): PolarisationSpectrum {
  const design = coreValue(project.requirements.wavelength, 'wavelength')
  const at = wavelengthsUm(bandUm, CURVE_POINTS)
  const v = Float64Array.from(compiled.nominal)
  const teDb = new Float64Array(CURVE_POINTS)
  const tmDb = new Float64Array(CURVE_POINTS)
  let [greatestDb, greatestUm] = [0, bandUm[0]]
  for (let i = 0; i < CURVE_POINTS; i++) {
    v[compiled.slots.wavelengthShift] = (at[i] ?? design) - design
    const loss = polarisationLoss(compiled, v)
    teDb[i] = loss.teDb
    tmDb[i] = loss.tmDb
    if (loss.dependentLossDb > greatestDb) [greatestDb, greatestUm] = [loss.dependentLossDb, at[i] ?? 0]
  }
  return { wavelengthsUm: at, teDb, tmDb, greatestDb, greatestUm }
}
