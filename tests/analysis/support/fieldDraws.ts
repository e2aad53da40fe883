// A design whose joint is computed by its fields, and the same joint by direct sums at any sample: no fit between.

import { withSolvedField } from '../../../src/analysis/field/portShape'
import { assemblyOf } from '../../../src/analysis/yield/assembly'
import { sampleValues } from '../../../src/analysis/yield/runBlocks'
import { demoProject } from '../../../src/model/project/demoProject'
import { quantityOf } from '../../../src/model/quantity/quantity'
import type { Project } from '../../../src/model/schema/project'
import {
  bandLimitedJoint,
  fieldJointOn,
  fieldPairOf,
  firstGrid,
  type GaussianJoint,
  type GradedField,
  jointLossDb,
  lossDb,
  type SampledField,
} from '../../../src/optics/index'

export interface FacetCase {
  readonly field: SampledField
  readonly powerShare: number
  /** The solver's own grid, where a solver made the mode. */
  readonly graded?: GradedField
  readonly mfdXUm: number
  readonly mfdYUm: number
  readonly offsetsUm: number
  readonly inGel: boolean
}

/** A mode with exponential tails, skewed along y as one below a surface: in closed form, so that no solver takes part. */
export function skewedMode(): SampledField {
  const [n, step] = [128, 0.1]
  const from = (-n / 2) * step
  const re = Float64Array.from({ length: n * n }, (_, i) => {
    const [x, y] = [from + (i % n) * step, from + Math.floor(i / n) * step]
    const along = Math.exp(-Math.hypot(x, 0.3) / 0.9)
    const up = Math.exp(-Math.hypot(y, 0.3) / (y > 0 ? 0.6 : 1.1))
    return along * up
  })
  return {
    nx: n,
    ny: n,
    dxUm: step,
    dyUm: step,
    x0Um: from,
    y0Um: from,
    re,
    im: new Float64Array(n * n),
    wavelengthUm: 1.55,
    index: 1,
  }
}

/** The fibre of 2.2 µm and NA 0.41 at 3 ± 2 µm, uniform, offsets as given and tilts of 1.5°, normal; nothing else moves. */
export function fieldProject(facetCase: FacetCase): { readonly project: Project; readonly id: string } {
  // Nothing of the demo has a tolerance but what is set below.
  const project: Project = JSON.parse(
    JSON.stringify(demoProject(), (name, value) => (name === 'tolerance' ? undefined : value)),
  )
  const candidate = project.candidates.find(({ chain: [first, join, last] }) => {
    const id = first?.kind === 'fibre' && first.tipId === undefined ? first.fibreId : ''
    const fibre = project.fibres.find((each) => each.id === id)
    return join?.kind === 'gap' && last?.kind === 'facet' && fibre?.mode.kind === 'core'
  })
  const [first, gap, last] = candidate?.chain ?? []
  if (candidate === undefined || first?.kind !== 'fibre' || gap?.kind !== 'gap' || last?.kind !== 'facet') {
    throw new Error('the demo has no cleaved fibre')
  }
  project.requirements.wavelength = quantityOf(1550, 'nm')
  project.requirements.wavelengthMin = undefined
  project.requirements.wavelengthMax = undefined
  const fibre = project.fibres.find(({ id }) => id === first.fibreId)
  if (fibre === undefined) throw new Error('no fibre')
  fibre.mode = { kind: 'core', coreDiameter: quantityOf(2.2, 'um'), na: quantityOf(0.41, 'rad') }
  fibre.mode.na.unit = '1'
  fibre.modeShape = { kind: 'core' }
  const normal = (value: number, unit: 'um' | 'deg', plusMinus: number) => ({
    ...quantityOf(value, unit),
    tolerance: { plusMinus, distribution: 'normal' as const },
  })
  const free = { bondShift: undefined, drift: undefined, aligned: [], typedLoss: undefined }
  Object.assign(gap, {
    ...free,
    gap: { ...quantityOf(3, 'um'), tolerance: { plusMinus: 2, distribution: 'uniform' } },
    offsetX: normal(0, 'um', facetCase.offsetsUm),
    offsetY: normal(0, 'um', facetCase.offsetsUm),
    tiltX: normal(0, 'deg', 1.5),
    tiltY: normal(0, 'deg', 1.5),
    roll: quantityOf(0, 'deg'),
    nearFaceAngle: quantityOf(0, 'deg'),
    farFaceAngle: quantityOf(0, 'deg'),
  })
  const medium = project.media.find(({ state }) => (state === 'gas') !== facetCase.inGel)
  if (medium !== undefined) gap.mediumId = medium.id
  candidate.mount = undefined
  candidate.userLines = []
  project.facets = project.facets.map((facet) =>
    facet.id === last.facetId
      ? withSolvedField(
          { ...facet, mfdX: quantityOf(facetCase.mfdXUm, 'um'), mfdY: quantityOf(facetCase.mfdYUm, 'um') },
          {
            field: facetCase.field,
            powerShare: facetCase.powerShare,
            ...(facetCase.graded && { graded: facetCase.graded }),
          },
          `case ${facetCase.mfdXUm} ${facetCase.offsetsUm} ${facetCase.inGel}`,
        )
      : facet,
  )
  return { project, id: candidate.id }
}

/** Loss by direct sums over the plane waves of both fields, at the values of the design's vector, dB. */
export function directLoss(project: Project, id: string) {
  const result = assemblyOf(project, id)
  if (!result.ok) throw new Error(result.issues.map(({ message }) => message).join())
  const assembly = result.value
  const { compiled } = assembly
  const jointOf = (v: Float64Array): GaussianJoint => {
    const view = compiled.joins[0]?.view?.(v)
    if (view == null) throw new Error('no joint')
    return view.joint
  }
  const field = compiled.joins[0]?.view?.(compiled.nominal).field
  if (field === undefined) throw new Error('no field')
  const pair = fieldPairOf(field.spec)
  const far = {
    ...jointOf(compiled.nominal),
    gapUm: 6,
    offsetXUm: 4,
    offsetYUm: 4,
    tiltXRad: 0.08,
    tiltYRad: 0.08,
  }
  const grid = firstGrid(pair, [far])
  const sums = (by: number) => bandLimitedJoint(pair, grid, by)
  const besides = compiled.lossDb(compiled.nominal) - totalJoint(compiled.nominal)
  function totalJoint(v: Float64Array): number {
    const loss = field?.loss
    if (loss === undefined || 'refusal' in loss) throw new Error('refused')
    return loss.fieldDb - loss.gaussianDb + jointLossDb(jointOf(v))
  }
  const through = sums(4)
  return {
    assembly,
    lossDb: (v: Float64Array, efficiency = through) => {
      const joint = jointOf(v)
      return besides + lossDb(efficiency(joint, joint.wavelengthUm))
    },
    /** With the joint of the Gaussians instead. */
    gaussianDb: (v: Float64Array) => besides + jointLossDb(jointOf(v)),
    /** The same by the joint on its whole grid (fieldJoint.ts), which the fit never uses. */
    wholeGridDb: (v: Float64Array) => besides + lossDb(fieldJointOn(pair, grid).efficiency(jointOf(v))),
    sample: (options: Parameters<typeof sampleValues>[1], index: number) =>
      sampleValues(assembly, options, index),
  }
}
