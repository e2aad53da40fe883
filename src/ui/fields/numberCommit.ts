// Reads a plain number from a text field; answers with a complaint where it is none.

export function numberCommit(
  label: string,
  [least, greatest]: readonly [number, number],
  whole: boolean,
  take: (value: number) => void,
  why = '',
): (text: string) => string | null {
  return (text) => {
    const value = Number(text.replace(',', '.'))
    const fits =
      Number.isFinite(value) && value >= least && value <= greatest && (!whole || Number.isInteger(value))
    if (!fits) {
      return `${label} is "${text}"; must be ${whole ? 'a whole number, ' : ''}${least} to ${greatest}${why}`
    }
    take(value)
    return null
  }
}
