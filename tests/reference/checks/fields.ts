import { centredGrid, sampleProfile } from '../../../src/optics/field/fieldGrid'
import { fieldEfficiency } from '../../../src/optics/field/fieldJoint'
import { ALIGNED_POSE } from '../../../src/optics/field/fieldPose'
import { gaussianProfile } from '../../../src/optics/field/modeProfile'
import { propagateField } from '../../../src/optics/field/propagateField'
import { radialMode } from '../../../src/optics/field/radialMode'
import { fieldPower } from '../../../src/optics/field/sampledField'
import { stepIndexProfile } from '../../../src/optics/field/stepIndexProfile'
import type { CheckRow } from '../checkRow'
import overlap from '../data/gaussian-overlap.json'
import lp01 from '../data/step-index-lp01.json'
import { GLOGE, SAMPLED_FIELD, SCIPY } from '../sources'

const largest = (differences: readonly number[]) => Math.max(...differences.map(Math.abs))

function gaussian(mfdXUm: number, mfdYUm: number, wavelengthUm: number, index: number, waist = [0, 0]) {
  const [waistXUm = 0, waistYUm = 0] = waist
  return gaussianProfile({ mfdXUm, mfdYUm, waistXUm, waistYUm, wavelengthUm, index })
}

function sampledJointDifference(): number {
  return largest(
    overlap.cases.map((joint) => {
      const { wavelengthUm, index } = joint
      const emitter = gaussian(joint.emitterMfdXUm, joint.emitterMfdYUm, wavelengthUm, index, [
        joint.waistXUm,
        joint.waistYUm,
      ])
      const receiver = gaussian(joint.receiverMfdXUm, joint.receiverMfdYUm, wavelengthUm, index)
      const pair = { emitter, receiver, wavelengthUm, index, propagation: 'paraxial' as const }
      return fieldEfficiency(pair, joint, 1e-7).efficiency - joint.efficiency
    }),
  )
}

function exactJointDifference(): number {
  return largest(
    lp01.joints.map(({ fibreA, fibreB, wavelengthUm, offsetXUm, efficiency }) => {
      const pair = {
        emitter: stepIndexProfile({ ...fibreA, wavelengthUm }),
        receiver: stepIndexProfile({ ...fibreB, wavelengthUm }),
        wavelengthUm,
        index: 1.444,
        propagation: 'exact' as const,
      }
      return fieldEfficiency(pair, { ...ALIGNED_POSE, offsetXUm }, 1e-4).efficiency - efficiency
    }),
  )
}

const CLADDING = 1.444

function radialDifference(): number {
  return largest(
    lp01.modes.map(({ coreRadiusUm, na, wavelengthUm, b }) => {
      const core = Math.hypot(CLADDING, na)
      const radiiUm = [0, coreRadiusUm, coreRadiusUm, 3 * coreRadiusUm]
      return radialMode({ radiiUm, indices: [core, core, CLADDING, CLADDING] }, wavelengthUm).b - b
    }),
  )
}

/** 40 um of a parabola whose mode is 5 um wide replace the infinite one. */
function parabolaIndex(): number {
  const [n1, a, slope] = [1.46, 25, 0.02]
  const radiiUm = Array.from({ length: 321 }, (_, i) => i / 8)
  const indices = radiiUm.map((r) => n1 * Math.sqrt(1 - slope * (r / a) ** 2))
  return radialMode({ radiiUm, indices }, 1.55).effectiveIndex
}

function energyChange(): number {
  const medium = { wavelengthUm: 1.55, index: 1 }
  const start = sampleProfile(gaussian(6, 4.2, 1.55, 1), centredGrid(256, 256, 0.4, 0.4), medium)
  return fieldPower(propagateField(start, 60, 'exact')) / fieldPower(start) - 1
}

const EXACT = `exact LP01 (${GLOGE}) by ${SCIPY}, tests/reference/data/recipes/make_lp01.py`

export const fieldChecks: readonly CheckRow[] = [
  {
    id: 'field-120',
    quantity: 'largest difference of the efficiency by the sampled engine over 120 joints of Gaussians',
    source: `${SAMPLED_FIELD}, tests/reference/data/recipes/make_overlap.py`,
    input: 'all cases of gaussian-overlap.json',
    expected: 0,
    unit: '1',
    tolerance: 1e-6,
    ours: sampledJointDifference,
  },
  {
    id: 'field-lp01-20',
    quantity: 'largest difference of the efficiency over 20 joints of exact fibre modes',
    source: `${EXACT}, good to about 1e-4`,
    input: 'all joints of step-index-lp01.json',
    expected: 0,
    unit: '1',
    tolerance: 1e-3,
    ours: exactJointDifference,
  },
  {
    id: 'field-radial-16',
    quantity: 'largest difference of b by the radial solver over 16 step-index fibres',
    source: EXACT,
    input: 'all modes of step-index-lp01.json as tables of radius and index',
    expected: 0,
    unit: '1',
    tolerance: 1e-6,
    ours: radialDifference,
  },
  {
    id: 'field-parabola',
    quantity: 'effective index of the fundamental mode of a parabolic profile',
    source:
      'beta^2 = k^2 - 2 k sqrt(2 Delta) / a, D. Marcuse, Light Transmission Optics (1972), ch. 7 (from memory)',
    input: 'n 1.46 on the axis, 2 Delta 0.02, a 25 um, 1.55 um',
    expected: 1.4586038422,
    unit: '1',
    tolerance: 1e-6,
    ours: parabolaIndex,
  },
  {
    id: 'field-energy',
    quantity: 'change of power over 60 um of exact propagation',
    source:
      'conservation of energy, M. Born and E. Wolf, Principles of Optics (1999), sect. 1.1.4: a lossless medium absorbs nothing',
    input: 'Gaussian of 6.0 by 4.2 um in air, 1.55 um',
    expected: 0,
    unit: '1',
    tolerance: 1e-10,
    ours: energyChange,
  },
]
