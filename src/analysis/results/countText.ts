/** A count with its thousands set apart: `100 000`. */
export function countText(count: number): string {
  return count.toLocaleString('en').replaceAll(',', '\u202f')
}
