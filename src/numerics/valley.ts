// The valley next to a starting point: descended in doubling steps until the function rises again.
// Source: W. H. Press et al., Numerical Recipes (3rd ed., 2007), sect. 10.1, initial bracketing, without the parabola.

const MOST_STEPS = 60

/**
 * An interval inside [lo, hi] with the local minimum that lies downhill of `start`; it ends at a border where f falls all the
 * way. `step` is the first step, above 0; `start` is inside the borders.
 */
export function valleyFrom(
  f: (x: number) => number,
  start: number,
  step: number,
  lo: number,
  hi: number,
): readonly [from: number, to: number] {
  const within = (x: number) => Math.min(hi, Math.max(lo, x))
  const here = f(start)
  const right = within(start + step)
  let direction = 1
  let [behind, at, value] = [start, right, f(right)]
  if (!(value < here)) {
    const left = within(start - step)
    const valueLeft = f(left)
    if (!(valueLeft < here)) return [left, right]
    direction = -1
    ;[at, value] = [left, valueLeft]
  }
  for (let n = 1; n < MOST_STEPS; n++) {
    const next = within(at + direction * step * 2 ** n)
    const valueNext = f(next)
    if (next === at || !(valueNext < value)) return direction > 0 ? [behind, next] : [next, behind]
    ;[behind, at, value] = [at, next, valueNext]
  }
  return direction > 0 ? [behind, at] : [at, behind]
}
