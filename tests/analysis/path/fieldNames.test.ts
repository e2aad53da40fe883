// A joint by fields says what each of its modes is taken to be, and what that changes.

import { expect, test } from 'vitest'
import { evaluateCandidate } from '../../../src/analysis/index'
import { type JoinSide, jointFields } from '../../../src/analysis/path/guides/fieldCorrection'
import { twoDesigns } from '../../support/twoDesigns'

test('a Gaussian on one side is called so, and the note states both losses and their difference is the line', () => {
  const project = twoDesigns()
  for (const fibre of project.fibres) fibre.modeShape = { kind: 'core' }
  const { joints, lines, validity } = evaluateCandidate(project, 'cleaved-dry')
  const field = joints[0]?.field
  if (field === undefined || 'refusal' in field.loss) throw new Error('no fields')
  expect(field.nearName).toMatch(/core/)
  expect(field.farName).toBe('Gaussian')
  const { fieldDb, gaussianDb, errorDb } = field.loss
  const line = lines.find(({ kind }) => kind === 'mode shape')
  expect(line?.lossDb).toBeCloseTo(fieldDb - gaussianDb, 9)
  expect(line?.note).toContain(
    `${gaussianDb.toFixed(3)} dB for Gaussian modes, ${fieldDb.toFixed(3)} dB by field overlap`,
  )
  const [, stated] = /numerical error ([\d.]+) dB/.exec(line?.note ?? '') ?? []
  expect(Number(stated)).toBeGreaterThanOrEqual(Math.min(errorDb, 1e-4) * 0.95)
  const note = validity.find(({ message }) => message.startsWith('Field overlap'))
  expect(note?.message).toContain(`(${field.nearName} to Gaussian) gives ${fieldDb.toFixed(3)} dB`)
})

test('a beam that is known by its spot is taken back to its face paraxially, any other exactly', () => {
  const joint = {
    ...evaluateCandidate(twoDesigns(), 'cleaved-dry').joints[0]!.joint,
    waistXUm: 12,
    waistYUm: 12,
  }
  const plain = { port: {}, stretchX: 1, stretchY: 1 } as unknown as JoinSide
  const mode = { kind: 'gaussian', mfdXUm: 3, mfdYUm: 3, waistXUm: 0, waistYUm: 0 }
  const shaped = { ...plain, port: { shape: { name: 'imported', mode } } } as unknown as JoinSide
  const propagation = (near: JoinSide, far: JoinSide, waistUm: number) =>
    jointFields(near, far, new Float64Array(0), { ...joint, waistXUm: waistUm, waistYUm: waistUm })
      ?.propagation
  expect(propagation(plain, shaped, 12)).toBe('paraxial')
  expect(propagation(plain, shaped, 0)).toBe('exact')
  expect(propagation(shaped, plain, 12)).toBe('exact')
  expect(propagation(plain, plain, 12)).toBeUndefined()
})
