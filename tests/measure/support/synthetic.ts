// Seeded scans and images of Gaussian modes, whose answers are known in closed form.

/** Seeded normal and uniform numbers (32-bit mix generator, Box-Muller). */
export function randomSource(seed: number) {
  let state = seed >>> 0
  const uniform = () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = Math.imul(state ^ (state >>> 15), 1 | state)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return (((t ^ (t >>> 14)) >>> 0) + 0.5) / 4294967296
  }
  const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
  return { uniform, normal }
}

/** Far field that is Gaussian in sin θ, the closed-form test scan. */
export function gaussianFarField(
  mfdUm: number,
  wavelengthUm: number,
  spanDeg: number,
  stepDeg: number,
  axisDeg = 0,
) {
  const angleRad: number[] = []
  const power: number[] = []
  for (let deg = -spanDeg; deg <= spanDeg + 1e-9; deg += stepDeg) {
    const s = Math.sin(((deg - axisDeg) * Math.PI) / 180)
    angleRad.push((deg * Math.PI) / 180)
    power.push(Math.exp(-2 * ((Math.PI * mfdUm * s) / (2 * wavelengthUm)) ** 2))
  }
  return { angleRad, power, wavelengthUm }
}

export interface OffsetScanCase {
  probeMfdUm: number
  mfdUm: number
  centreUm: number
  proportional?: number
  constant?: number
  points?: number
  normal?: () => number
}

export function gaussianOffsetScan(c: OffsetScanCase) {
  const points = c.points ?? 97
  const noise = c.normal ?? (() => 0)
  const positionUm = Array.from({ length: points }, (_, i) => -12 + (24 * i) / (points - 1))
  const power = positionUm.map((x) => {
    const signal =
      180 * Math.exp((-2 * (x - c.centreUm) ** 2) / ((c.probeMfdUm / 2) ** 2 + (c.mfdUm / 2) ** 2))
    return signal * (1 + (c.proportional ?? 0) * noise()) + 0.4 + 180 * (c.constant ?? 0) * noise()
  })
  return { positionUm, power, probeMfdUm: c.probeMfdUm }
}

export interface BeamCase {
  size: number
  pixelUm: number
  majorUm: number
  minorUm: number
  azimuthDeg: number
  peak: number
  background: number
  noise?: number
  fullScale?: number
  normal?: () => number
  centreUm?: readonly [number, number]
}

export function gaussianImage(c: BeamCase) {
  const pixels = new Float64Array(c.size * c.size)
  const t = (c.azimuthDeg * Math.PI) / 180
  const [cx, cy] = c.centreUm ?? [(c.size * c.pixelUm) / 2, (c.size * c.pixelUm) / 2]
  for (let j = 0; j < c.size; j++) {
    for (let i = 0; i < c.size; i++) {
      const x = i * c.pixelUm - cx
      const y = j * c.pixelUm - cy
      const u = (Math.cos(t) * x + Math.sin(t) * y) / (c.majorUm / 2)
      const v = (Math.cos(t) * y - Math.sin(t) * x) / (c.minorUm / 2)
      const value =
        c.peak * Math.exp(-2 * (u * u + v * v)) + c.background + (c.noise ?? 0) * (c.normal?.() ?? 0)
      pixels[j * c.size + i] = Math.min(c.fullScale ?? 65_535, Math.max(0, Math.round(value)))
    }
  }
  return { pixels, width: c.size, height: c.size, pixelUm: c.pixelUm, fullScale: c.fullScale ?? 65_535 }
}
