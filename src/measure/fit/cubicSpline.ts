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
    const left = (x[i] as number) - (x[i - 1] ?? 0)
    const right = (x[i + 1] ?? 0) - (x[i] as number)
    const bend = ((y[i + 1] ?? 0) - (y[i] as number)) / right - ((y[i] as number) - (y[i - 1] ?? 0)) / left
    const pivot = 2 * (left + right) - left * (ratio[i - 1] ?? 0)
    ratio[i] = right / pivot
    curvature[i] = (6 * bend - left * (curvature[i - 1] ?? 0)) / pivot
  }
  for (let i = n - 2; i > 0; i--)
    curvature[i] = (curvature[i] as number) - (ratio[i] as number) * (curvature[i + 1] ?? 0)
  return { x, y, curvature }
}

/** The spline's value; outside the points it continues the end piece. */
export function splineValue(spline: CubicSpline, at: number): number {
  const { x, y, curvature } = spline
  let low = 0
  let high = x.length - 1
  while (high - low > 1) {
    const middle = (low + high) >> 1
    if ((x[middle] as number) > at) high = middle
    else low = middle
  }
  const width = (x[high] as number) - (x[low] as number)
  const a = ((x[high] as number) - at) / width
  const b = 1 - a
  const bend = (a ** 3 - a) * (curvature[low] as number) + (b ** 3 - b) * (curvature[high] as number)
  return a * (y[low] as number) + b * (y[high] as number) + (bend * width * width) / 6
}
