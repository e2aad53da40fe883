// An imported field becomes the shape of a mode: about its centroid, as far as its light reaches, on at most
// as many points as a project keeps, the greatest amplitude 1.

import type { ImportedShape } from '../../model/schema/modeShape'
import { FIELD_LIMITS } from '../../model/words/modeShape'
import { packNumbers } from '../../numerics/compactNumbers'
import { InputError } from '../../numerics/inputError'
import { fixedText, significantText } from '../../numerics/numberText'
import { centredGrid, fieldMoments, gridProfile, requireField, sampleProfile } from '../../optics/index'
import type { FieldReading } from './fieldTable'
import { keptFileName } from './keptText'

/** Half of the kept window in D4-sigma diameters: a Gaussian has fallen to 4e-5 of its peak there. */
const HALF_WINDOW = 1.6
const LEAST_POINTS = 8

/** The shape to keep. Throws InputError for a field without light, or narrower than a few samples. */
export function importedShape({ field, notes }: FieldReading, fileName: string): ImportedShape {
  requireField(field)
  const centre = fieldMoments(field)
  const axis = (
    name: 'x' | 'y',
    widthUm: number,
    stepUm: number,
    from: number,
    count: number,
    at: number,
  ) => {
    if (widthUm < 2 * stepUm) {
      throw new InputError(
        `width along ${name}`,
        `${significantText(widthUm, 3)} µm`,
        `at least two samples, ${significantText(2 * stepUm, 3)} µm`,
      )
    }
    const to = from + (count - 1) * stepUm
    const half = Math.min(HALF_WINDOW * widthUm, Math.max(at - from, to - at))
    const n = Math.max(LEAST_POINTS, Math.min(FIELD_LIMITS.points, 2 * Math.ceil(half / stepUm)))
    return { n, step: (2 * half) / n }
  }
  const x = axis('x', centre.widthXUm, field.dxUm, field.x0Um, field.nx, centre.centreXUm)
  const y = axis('y', centre.widthYUm, field.dyUm, field.y0Um, field.ny, centre.centreYUm)
  const grid = centredGrid(x.n, y.n, x.step, y.step)
  const kept = sampleProfile(gridProfile(field, centre.centreXUm, centre.centreYUm), grid, field)
  const peak = kept.re.reduce((most, re, i) => Math.max(most, Math.hypot(re, kept.im[i] as number)), 0)
  const packed = (values: Float64Array) => packNumbers(values.map((value) => Math.fround(value / peak)))
  const isFlat = kept.im.every((value) => value === 0)
  return {
    kind: 'imported',
    fileName: keptFileName(fileName),
    notes: [
      ...notes,
      `Stored centred on the centroid of its intensity: D4σ ${fixedText(centre.widthXUm, 2)} × ${fixedText(centre.widthYUm, 2)} µm, ${x.n} × ${y.n} points.`,
    ],
    nx: x.n,
    ny: y.n,
    dxUm: x.step,
    dyUm: y.step,
    x0Um: grid.x0Um,
    y0Um: grid.y0Um,
    re: packed(kept.re),
    ...(isFlat ? {} : { im: packed(kept.im) }),
  }
}
