/** Numbers in -1 .. 1 that are the same in every run. */
export function uniformStream(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 2147483648 - 1
  }
}
