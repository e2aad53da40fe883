import { describe, expect, test } from 'vitest'
import { readImage } from '../../../src/measure/images/readImage'
import { readFieldImage } from '../../../src/measure/intake/fieldImage'
import { readFieldTable } from '../../../src/measure/intake/fieldTable'
import { importedShape } from '../../../src/measure/intake/importedShape'
import { keptImage } from '../../../src/measure/intake/keptReadings'
import { quantityOf } from '../../../src/model/quantity/quantity'
import { packNumbers, unpackNumbers } from '../../../src/numerics/compactNumbers'
import { ALIGNED_POSE, fieldEfficiency, gaussianProfile, gridProfile } from '../../../src/optics/index'
import { benchBytes } from '../support/truth'

/** A Gaussian as a table, off axis, as another program might write it. */
function table(
  mfdUm: number,
  { intensity = false, phase = 0, heading = 'x [um],y [um],amplitude,phase [rad]', turned = false } = {},
): string {
  const rows: string[] = []
  for (let iy = 0; iy < 41; iy++) {
    for (let ix = 0; ix < 51; ix++) {
      const [x, y] = [-3 + ix * 0.2, -4 + iy * 0.2]
      const square = ((x - 2) ** 2 + (y - 0.5) ** 2) / (mfdUm / 2) ** 2
      const value = Math.exp(-(intensity ? 2 : 1) * square)
      rows.push([x, y, value, ...(intensity ? [] : [phase * x])].map((each) => each.toFixed(6)).join(','))
    }
  }
  if (turned) rows.reverse()
  return [heading, ...rows].join('\n')
}

/** Overlap of an imported shape with a Gaussian on its axis. */
function overlapWith(mfdUm: number, shape: ReturnType<typeof importedShape>): number {
  const re = unpackNumbers(shape.re)
  const im = shape.im === undefined ? new Float64Array(re.length) : unpackNumbers(shape.im)
  const medium = { wavelengthUm: 1.55, index: 1 }
  const receiver = gaussianProfile({ ...medium, mfdXUm: mfdUm, mfdYUm: mfdUm, waistXUm: 0, waistYUm: 0 })
  const emitter = gridProfile({ ...shape, ...medium, re, im })
  return fieldEfficiency({ ...medium, emitter, receiver, propagation: 'exact' }, ALIGNED_POSE).efficiency
}

describe('a field brought as a table', () => {
  test('becomes the mode it is, about its own axis', () => {
    const shape = importedShape(readFieldTable(table(3), 1.55), 'mode.csv')
    expect(overlapWith(3, shape)).toBeGreaterThan(1 - 1e-5)
    expect(shape.im).toBeUndefined()
  })

  test('may come in any order of rows', () => {
    const [plain, turned] = [false, true].map((each) => readFieldTable(table(3, { turned: each }), 1.55))
    expect(turned?.field.re).toEqual(plain?.field.re)
  })

  test('by intensity is the root of it, with a flat phase, and says both', () => {
    const reading = readFieldTable(table(3, { intensity: true, heading: 'x_um,y_um,intensity' }), 1.55)
    expect(overlapWith(3, importedShape(reading, 'i.csv'))).toBeGreaterThan(1 - 1e-4)
    expect(reading.notes.join(' ')).toMatch(/flat phase is assumed/)
    expect(reading.notes.join(' ')).toMatch(/square roots/)
  })

  test('keeps its phase: a slope of k t couples as the tilt formula says', () => {
    // Source: exp(-(k t w)^2 / 4) for equal modes, W. B. Joyce and B. C. DeLoach, Appl. Opt. 23 (1984) 4187 (from memory).
    const phase = 0.4
    const shape = importedShape(readFieldTable(table(3, { phase }), 1.55), 'mode.csv')
    expect(overlapWith(3, shape)).toBeCloseTo(Math.exp(-((phase * 1.5) ** 2) / 4), 4)
  })

  test('takes nanometres and says what it had to assume', () => {
    const heading = 'x,y,amplitude,phase'
    const { notes } = readFieldTable(table(3, { heading }), 1.55)
    expect(notes).toContain('x has no unit; taken as µm.')
    expect(notes).toContain('phase has no unit; taken as rad.')
    const { field } = readFieldTable(table(3, { heading: 'x [nm],y [nm],amplitude,phase [deg]' }), 1.55)
    expect(field.dxUm).toBeCloseTo(0.2e-3, 12)
  })

  test('is refused by name where it is none', () => {
    const read = (text: string) => () => readFieldTable(text, 1.55)
    expect(read('a,b,c\n1,2,3\n2,3,4\n')).toThrow('heading row is a, b, c; must be x, y and one of')
    const lines = table(3).split('\n')
    expect(read(lines.slice(0, -1).join('\n'))).toThrow(
      'number of rows is 2090; must be 2091 (51 positions along x times 41 along y)',
    )
    const twice = [...lines.slice(0, -1), lines[1]].join('\n')
    expect(read(twice)).toThrow('a second value at')
    expect(read(table(3, { heading: 'x [deg],y [um],amplitude,phase [rad]' }))).toThrow('unit of x is "deg"')
    const negative = table(3, { intensity: true, heading: 'x_um,y_um,intensity' }).replace(
      /,0\.0\d+$/m,
      ',-0.5',
    )
    expect(read(negative)).toThrow(/intensity of row \d+ is -0.5; must be 0 or more/)
  })
})

describe('a field from a camera image', () => {
  const image = readImage(benchBytes('near-field-1.pgm'))
  const kept = keptImage(image)
  const measurement = {
    id: 'm',
    name: 'm',
    fileName: 'near-field-1.pgm',
    date: '2026-01-01',
    notes: [],
    method: 'image' as const,
    width: kept.width,
    height: kept.height,
    binning: kept.binning,
    pixels: packNumbers(kept.pixels),
    pixelPitch: quantityOf(0.25, 'um'),
  }

  test('is flat in phase, kept compactly, and lies about its own axis', () => {
    const reading = readFieldImage(measurement, 1.55)
    const shape = importedShape(reading, measurement.fileName)
    expect(reading.notes[0]).toContain('flat phase is assumed')
    expect(shape.im).toBeUndefined()
    expect(Math.max(shape.nx, shape.ny)).toBeLessThanOrEqual(128)
    expect(JSON.stringify(shape).length).toBeLessThan(100_000)
  })

  test('is the ellipse that made the image, turned the other way because rows run down (truth.json)', () => {
    const shape = importedShape(readFieldImage(measurement, 1.55), measurement.fileName)
    const medium = { wavelengthUm: 1.55, index: 1 }
    const re = unpackNumbers(shape.re)
    const receiver = gridProfile({ ...shape, ...medium, re, im: re.map(() => 0) })
    const emitter = gaussianProfile({ ...medium, mfdXUm: 9.6, mfdYUm: 6.2, waistXUm: 0, waistYUm: 0 })
    const turned = (degrees: number) =>
      fieldEfficiency(
        { ...medium, emitter, receiver, propagation: 'exact' },
        { ...ALIGNED_POSE, rollRad: (degrees * Math.PI) / 180 },
        1e-4,
      ).efficiency
    expect(turned(-17)).toBeGreaterThan(0.998)
    expect(turned(17)).toBeLessThan(0.97)
  })

  test('of darkness is refused', () => {
    const dark = { ...measurement, pixels: packNumbers(kept.pixels.map(() => 7)) }
    expect(() => readFieldImage(dark, 1.55)).toThrow('image is "dark"')
  })
})
