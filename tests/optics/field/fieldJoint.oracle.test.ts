import { describe, expect, test } from 'vitest'
import { fieldEfficiency } from '../../../src/optics/field/fieldJoint'
import { gaussianProfile } from '../../../src/optics/field/modeProfile'
import reference from '../../reference/data/gaussian-overlap.json'

describe('the sampled joint against 120 independent sampled joints (tests/reference/data)', () => {
  test.each(reference.cases.map((joint, number) => ({ number, joint })))(
    'case $number agrees to 1e-6, and to the error it states',
    ({ joint }) => {
      const medium = { wavelengthUm: joint.wavelengthUm, index: joint.index }
      const emitter = gaussianProfile({
        ...medium,
        mfdXUm: joint.emitterMfdXUm,
        mfdYUm: joint.emitterMfdYUm,
        waistXUm: joint.waistXUm,
        waistYUm: joint.waistYUm,
      })
      const receiver = gaussianProfile({
        ...medium,
        mfdXUm: joint.receiverMfdXUm,
        mfdYUm: joint.receiverMfdYUm,
        waistXUm: 0,
        waistYUm: 0,
      })
      const found = fieldEfficiency({ ...medium, emitter, receiver, propagation: 'paraxial' }, joint, 1e-7)
      const difference = Math.abs(found.efficiency - joint.efficiency)
      expect(difference).toBeLessThan(1e-6)
      expect(difference).toBeLessThan(found.error + 1e-9)
    },
  )
})
