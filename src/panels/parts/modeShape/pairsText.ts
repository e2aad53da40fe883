// Two columns of numbers as lines of text, and read back: distances with shares, wavelengths with index steps.

/** What both columns are, for messages. */
export interface PairNames {
  readonly first: string
  readonly second: string
}

export function pairsText(first: readonly number[], second: readonly number[]): string {
  return first.map((value, at) => `${value}  ${second[at] ?? ''}`).join('\n')
}

/** The columns, or what is wrong with the text: the row, its words and what it must be. */
export function readPairs(
  text: string,
  names: PairNames,
): { readonly first: number[]; readonly second: number[] } | string {
  const [first, second]: [number[], number[]] = [[], []]
  for (const [at, line] of text.split('\n').entries()) {
    if (line.trim() === '') continue
    const cells = line.trim().split(/[\s;]+/)
    const [one, two] = cells.map((cell) => Number(cell.replace(',', '.')))
    if (cells.length !== 2 || one === undefined || two === undefined || !Number.isFinite(one + two)) {
      return `Row ${at + 1} is "${line.trim()}"; must be ${names.first} and ${names.second}`
    }
    first.push(one)
    second.push(two)
  }
  return { first, second }
}
