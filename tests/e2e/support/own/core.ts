// The mode of a step-index core once more for tests: Bessel functions from their integrals (G. N. Watson, Theory of Bessel Functions,
// 2.2 and 6.22), the weakly guiding equation of LP01 (D. Gloge, Appl. Opt. 10 (1971) 2252) by halving, and the Gaussian that overlaps
// its field most by summing along the radius.

const TURNS = 40

/** J_n(x) by the trapezoid rule over one turn of its integral: exact to rounding for small arguments. */
const besselJ = (order: number, x: number): number =>
  Array.from({ length: TURNS }, (_, i) => (2 * Math.PI * i) / TURNS).reduce(
    (sum, turn) => sum + Math.cos(order * turn - x * Math.sin(turn)) / TURNS,
    0,
  )

const STEP = 0.1

/** K_n(x) by the trapezoid rule over its integral along the real axis. */
function besselK(order: number, x: number): number {
  let sum = STEP * 0.5 * Math.exp(-x)
  for (let t = STEP; x * Math.cosh(t) < 700 && t < 12; t += STEP)
    sum += STEP * Math.exp(-x * Math.cosh(t)) * Math.cosh(order * t)
  return sum
}

const RINGS = 600
const REACH = 8

/** The mode of a core: radii in units of its own, 1 at its edge. */
function fieldOverCore(v: number): (r: number) => number {
  const inside = (u: number, w: number) =>
    (u * besselJ(1, u)) / besselJ(0, u) - (w * besselK(1, w)) / besselK(0, w)
  let [low, high] = [1e-6, Math.min(v, 2.404) - 1e-9]
  for (let i = 0; i < 50; i++) {
    const u = (low + high) / 2
    if (inside(u, Math.sqrt(v * v - u * u)) < 0) low = u
    else high = u
  }
  const u = low
  const w = Math.sqrt(v * v - u * u)
  const [atJ, atK] = [besselJ(0, u), besselK(0, w)]
  return (r) => (r < 1 ? besselJ(0, u * r) / atJ : besselK(0, w * r) / atK)
}

const TABLED_RADII = 14
const ROWS = 400

/** The mode of a step core over the radius, um: straight lines between the rows of a table. */
export function ownCoreField(
  coreRadiusUm: number,
  na: number,
  wavelengthUm: number,
): (rUm: number) => number {
  const field = fieldOverCore((2 * Math.PI * coreRadiusUm * na) / wavelengthUm)
  const rows = Array.from({ length: TABLED_RADII * ROWS + 2 }, (_, i) => field(i / ROWS))
  return (rUm) => {
    const at = (rUm / coreRadiusUm) * ROWS
    const first = Math.floor(at)
    if (first > TABLED_RADII * ROWS) return 0
    return (rows[first] ?? 0) + (at - first) * ((rows[first + 1] ?? 0) - (rows[first] ?? 0))
  }
}

/** Radius of the best Gaussian over the radius of the core. */
function radiusOverCore(v: number): number {
  const field = fieldOverCore(v)
  const rings = Array.from({ length: RINGS }, (_, i) => {
    const r = ((i + 0.5) * REACH) / RINGS
    return { r, field: field(r) }
  })
  const overlap = (radius: number) =>
    rings.reduce((sum, { r, field }) => sum + field * Math.exp(-((r / radius) ** 2)) * r, 0) / radius
  let [from, to] = [0.6, 3]
  while (to - from > 1e-6) {
    const third = (to - from) / 3
    if (overlap(from + third) > overlap(to - third)) to -= third
    else from += third
  }
  return (from + to) / 2
}

const NODE = 0.05
const known = new Map<number, number>()

function atNode(i: number): number {
  const found = known.get(i) ?? radiusOverCore(i * NODE)
  known.set(i, found)
  return found
}

/** Radius of the Gaussian nearest to the mode of a step core, um: between nodes of V by the cubic through four of them. */
export function ownCoreRadius(coreRadiusUm: number, na: number, wavelengthUm: number): number {
  const at = (2 * Math.PI * coreRadiusUm * na) / wavelengthUm / NODE
  const from = Math.floor(at) - 1
  let sum = 0
  for (let i = from; i < from + 4; i++) {
    let weight = 1
    for (let j = from; j < from + 4; j++) if (j !== i) weight *= (at - j) / (i - j)
    sum += weight * atNode(i)
  }
  return coreRadiusUm * sum
}
