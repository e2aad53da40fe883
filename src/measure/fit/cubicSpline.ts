// Natural cubic spline through measured points.
// Source: C. de Boor, A Practical Guide to Splines (1978), ch. IV. Fourth-order accurate between close points.

export interface CubicSpline {
  readonly x: Float64Array
  readonly y: Float64Array
  /** Second derivatives at the points. */
  readonly curvature: Float64Array
}

/** `x` strictly ascending, at least two points; neither array is copied. */
export function cubicSpline(x: Float64Array, y: Float64Array): CubicSpline {
  const n = x.length
  const curvature = new Float64Array(n)
  const ratio = new Float64Array(n)
  for (let i = 1; i < n - 1; i++) {
    const left = (x[i] ?? 0) - (x[i - 1] ?? 0)
    const right = (x[i + 1] ?? 0) - (x[i] ?? 0)
    const bend = ((y[i + 1] ?? 0) - (y[i] ?? 0)) / right - ((y[i] ?? 0) - (y[i - 1] ?? 0)) / left
    const pivot = 2 * (left + right) - left * (ratio[i - 1] ?? 0)
    ratio[i] = right / pivot
    curvature[i] = (6 * bend - left * (curvature[i - 1] ?? 0)) / pivot
  }
  for (let i = n - 2; i > 0; i--)
    curvature[i] = (curvature[i] ?? 0) - (ratio[i] ?? 0) * (curvature[i + 1] ?? 0)
  return { x, y, curvature }
}

/** The spline's value; outside the points it continues the end piece. */
export function splineValue(spline: CubicSpline, at: number): number {
  const { x, y, curvature } = spline
  let low = 0
  let high = x.length - 1
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if ((x[middle] ?? 0) > at) high = middle
    else low = middle
  }
  const width = (x[high] ?? 0) - (x[low] ?? 0)
  const a = ((x[high] ?? 0) - at) / width
  const b = 1 - a
  const bend = (a ** 3 - a) * (curvature[low] ?? 0) + (b ** 3 - b) * (curvature[high] ?? 0)
  return a * (y[low] ?? 0) + b * (y[high] ?? 0) + (bend * width * width) / 6
}
