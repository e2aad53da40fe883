// A paraxial field sampled along one transverse axis and carried by the Fresnel integral, summed directly.
// Nothing here knows of Gaussian beams, q or ray matrices: it is what those are checked against.
// Two-dimensional joints of round lenses separate into x and y, so that the efficiency is the product of two.

export interface SampledField {
  readonly halfWidthUm: number
  readonly re: Float64Array
  readonly im: Float64Array
}

const COUNT = 1601

const positions = (halfWidthUm: number): Float64Array =>
  Float64Array.from({ length: COUNT }, (_, i) => halfWidthUm * ((2 * i) / (COUNT - 1) - 1))

const stepUm = (halfWidthUm: number) => (2 * halfWidthUm) / (COUNT - 1)

/** A field from its complex values, at a width that must hold all of it. */
export function sampled(
  halfWidthUm: number,
  value: (xUm: number) => readonly [re: number, im: number],
): SampledField {
  const values = Array.from(positions(halfWidthUm), value)
  return {
    halfWidthUm,
    re: Float64Array.from(values, ([re]) => re),
    im: Float64Array.from(values, ([, im]) => im),
  }
}

/** A mode of 1/e^2 intensity radius `radiusUm` about `centreUm`, sloping by `slopeRad` in a medium of `index`. */
export function mode(
  radiusUm: number,
  wavelengthUm: number,
  { centreUm = 0, slopeRad = 0, index = 1, halfWidthUm = 6 * radiusUm } = {},
): SampledField {
  const k = (2 * Math.PI * index) / wavelengthUm
  return sampled(halfWidthUm + Math.abs(centreUm), (x) => {
    const amplitude = Math.exp(-(((x - centreUm) / radiusUm) ** 2))
    const phase = k * slopeRad * (x - centreUm)
    return [amplitude * Math.cos(phase), amplitude * Math.sin(phase)]
  })
}

/** The field multiplied by exp(i phase(x)). */
export function phased(field: SampledField, phase: (xUm: number) => number): SampledField {
  const x = positions(field.halfWidthUm)
  const at = (i: number) => phase(x[i] ?? 0)
  return {
    halfWidthUm: field.halfWidthUm,
    re: field.re.map((re, i) => re * Math.cos(at(i)) - (field.im[i] ?? 0) * Math.sin(at(i))),
    im: field.im.map((im, i) => im * Math.cos(at(i)) + (field.re[i] ?? 0) * Math.sin(at(i))),
  }
}

/** One refracting face, a phase screen: radius positive with the centre downstream, `offsetUm` off the axis. */
export function refracted(
  field: SampledField,
  wavelengthUm: number,
  face: {
    readonly before: number
    readonly after: number
    readonly radiusUm: number
    readonly offsetUm?: number
  },
): SampledField {
  const k = (2 * Math.PI) / wavelengthUm
  const bend = (k * (face.after - face.before)) / (2 * face.radiusUm)
  return phased(field, (x) => -bend * (x - (face.offsetUm ?? 0)) ** 2)
}

/** Over a path in a medium, seen on a window of `halfWidthUm`. */
export function carried(
  field: SampledField,
  wavelengthUm: number,
  index: number,
  lengthUm: number,
  halfWidthUm: number,
): SampledField {
  const from = positions(field.halfWidthUm)
  const to = positions(halfWidthUm)
  const k = (2 * Math.PI * index) / wavelengthUm
  const scale = Math.sqrt(index / (wavelengthUm * lengthUm)) * stepUm(field.halfWidthUm)
  const re = new Float64Array(COUNT)
  const im = new Float64Array(COUNT)
  for (let j = 0; j < COUNT; j++) {
    let sumRe = 0
    let sumIm = 0
    for (let i = 0; i < COUNT; i++) {
      const phase = (k * ((to[j] ?? 0) - (from[i] ?? 0)) ** 2) / (2 * lengthUm)
      const [c, s] = [Math.cos(phase), Math.sin(phase)]
      sumRe += (field.re[i] ?? 0) * c - (field.im[i] ?? 0) * s
      sumIm += (field.re[i] ?? 0) * s + (field.im[i] ?? 0) * c
    }
    re[j] = scale * sumRe
    im[j] = scale * sumIm
  }
  return { halfWidthUm, re, im }
}

/** Power coupled from a field into a mode sampled on the same window, one axis, 0..1. */
export function coupled(field: SampledField, receiver: SampledField): number {
  if (field.halfWidthUm !== receiver.halfWidthUm) throw new Error('windows differ')
  let [re, im, own, other] = [0, 0, 0, 0]
  for (let i = 0; i < COUNT; i++) {
    const [a, b] = [field.re[i] ?? 0, field.im[i] ?? 0]
    const [c, d] = [receiver.re[i] ?? 0, receiver.im[i] ?? 0]
    re += a * c + b * d
    im += b * c - a * d
    own += a * a + b * b
    other += c * c + d * d
  }
  return (re * re + im * im) / (own * other)
}
