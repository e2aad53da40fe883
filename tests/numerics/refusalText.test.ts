import { expect, test } from 'vitest'
import { InputError, RefusalError, requireInRange, requirePositive } from '../../src/numerics/inputError'
import { attempted } from '../../src/numerics/outcome'
import { refusalText } from '../../src/numerics/refusalText'

const said = (work: () => unknown) => {
  const outcome = attempted(work)
  return outcome.ok ? '' : outcome.message
}

test('an argument of the core is named in words, with its unit, angles in degrees', () => {
  expect(said(() => requireInRange('gapUm', -3, 0, 500))).toBe('gap is −3 µm; must be 0 µm to 500 µm')
  expect(said(() => requireInRange('tiltXRad', Math.PI / 2, -Math.PI / 4, Math.PI / 4))).toBe(
    'tilt x is 90°; must be −45° to 45°',
  )
  expect(said(() => requirePositive('mfdYUm', 0))).toBe('MFD y is 0 µm; must be a finite number above 0')
})

test('any other message stays as it is', () => {
  expect(refusalText(new RefusalError('The scan is empty.'))).toBe('The scan is empty.')
  expect(refusalText(new InputError('number of points', 3, '4 or more'))).toBe(
    'number of points is 3; must be 4 or more',
  )
  expect(refusalText(new InputError('gapUm', undefined, 'given'))).toBe('gapUm is missing; must be given')
})
