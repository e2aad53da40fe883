import { expect, test } from 'vitest'
import { peakIrradiance } from '../../../src/optics/beam/irradiance'

test('1 mW in a mode of 10.4 um peaks at 2 P / (pi w^2) = 23.54 uW/um^2, 2.354 kW/cm^2 (by hand)', () => {
  expect(peakIrradiance(1000, 10.4, 10.4)).toBeCloseTo(2000 / (Math.PI * 5.2 ** 2), 12)
  expect(peakIrradiance(1000, 10.4, 10.4)).toBeCloseTo(23.544, 3)
})

test('the integral over the Gaussian is the power', () => {
  const peak = peakIrradiance(1, 4, 2)
  let sum = 0
  const step = 0.02
  for (let x = -6; x < 6; x += step) {
    for (let y = -3; y < 3; y += step)
      sum += peak * Math.exp((-2 * x * x) / 4 - (2 * y * y) / 1) * step * step
  }
  expect(sum).toBeCloseTo(1, 6)
})

test('a mode without size or a negative power is refused', () => {
  expect(() => peakIrradiance(1, 0, 3)).toThrow('mfdXUm is 0')
  expect(() => peakIrradiance(-1, 3, 3)).toThrow('powerUw is -1')
})
