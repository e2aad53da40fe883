// How wide a text will be, without a page to measure it on.
// Advance widths of Source Sans 3 at weight 400 in thousandths of the font size, measured from the font file that the app
// is served with.

const GROUPS: Readonly<Record<number, string>> = {
  200: ' ',
  248: "'\u2018\u2019,.:;·ijI|l",
  300: '()[]-`!/\\°f',
  347: 'rt²³',
  426: '"?*z\u201c\u201d',
  456: 'csxvy^',
  500: '0123456789abeghknopqudäöüéèçñ$#+<=>~±×÷\u2212–_ßLFJY',
  540: 'AETXZSVPKRBC',
  562: 'µ&D',
  650: 'HNUOQGMÖÜλη',
  840: '%@mMWw—…≤≥→',
}

const WIDTHS: ReadonlyMap<string, number> = new Map(
  Object.entries(GROUPS).flatMap(([width, letters]) =>
    [...letters].map((letter) => [letter, Number(width)] as const),
  ),
)
/** Letters that are not listed, such as those of other scripts, are taken as wide ones. */
const UNKNOWN = 1000

/** Width in px; good to a few per cent, rather too wide. */
export function textWidthPx(text: string, sizePx = 13): number {
  let sum = 0
  for (const letter of text) sum += WIDTHS.get(letter) ?? UNKNOWN
  return (sum * sizePx * 1.03) / 1000
}

/** The text in one line where it fits, else in two, of which the second is cut to the width. */
export function twoLines(text: string, mostPx: number, sizePx = 13): readonly string[] {
  if (textWidthPx(text, sizePx) <= mostPx) return [text]
  const words = text.split(' ')
  let count = words.length - 1
  while (count > 1 && textWidthPx(words.slice(0, count).join(' '), sizePx) > mostPx) count -= 1
  const lines = [words.slice(0, count).join(' '), words.slice(count).join(' ')]
  return lines.filter((line) => line !== '').map((line) => fittedText(line, mostPx, sizePx))
}

/** The text cut to a width, with an ellipsis where it was cut. */
export function fittedText(text: string, mostPx: number, sizePx = 13): string {
  if (textWidthPx(text, sizePx) <= mostPx) return text
  const letters = [...text]
  while (letters.length > 1 && textWidthPx(`${letters.join('')}…`, sizePx) > mostPx) letters.pop()
  return `${letters.join('').trimEnd()}…`
}
