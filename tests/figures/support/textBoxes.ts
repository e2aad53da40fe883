// Where the texts of an SVG picture lie, by the widths of the letters.

import type { Markup } from '../../../src/figures/render/markup'
import { textWidthPx } from '../../../src/figures/render/textWidth'

export interface TextBox {
  readonly words: string
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

/** Height of letters over and under the baseline, as parts of the font size. */
const [RISE, DROP] = [0.66, 0.2] as const

const num = (node: Markup, name: string, otherwise = 0) => Number(node.attributes[name] ?? otherwise)

/** All texts in the picture's own units; nested pictures are placed as a browser places them. */
export function textBoxes(node: Markup, sizePx = 13): readonly TextBox[] {
  const own = num(node, 'font-size', sizePx)
  if (node.tag === 'text') {
    const words = node.children.filter((child) => typeof child === 'string').join('')
    if (words === '') return []
    const width = textWidthPx(words, own)
    const [x, y] = [num(node, 'x'), num(node, 'y')]
    const anchor = node.attributes['text-anchor'] ?? 'start'
    const left = anchor === 'end' ? x - width : anchor === 'middle' ? x - width / 2 : x
    return [{ words, left, right: left + width, top: y - RISE * own, bottom: y + DROP * own }]
  }
  const inner = node.children.flatMap((child) => (typeof child === 'string' ? [] : textBoxes(child, own)))
  if (node.tag !== 'svg' || node.attributes.viewBox === undefined) return inner
  const [fromX = 0, fromY = 0, width = 1] = String(node.attributes.viewBox).split(' ').map(Number)
  const scale = node.attributes.width === undefined ? 1 : num(node, 'width') / width
  const [dx, dy] = [num(node, 'x') - fromX * scale, num(node, 'y') - fromY * scale]
  return inner.map((box) => ({
    words: box.words,
    left: dx + box.left * scale,
    right: dx + box.right * scale,
    top: dy + box.top * scale,
    bottom: dy + box.bottom * scale,
  }))
}

/** Pairs of texts that lie over each other. */
export function collisions(boxes: readonly TextBox[]): readonly string[] {
  return boxes.flatMap((a, i) =>
    boxes
      .slice(i + 1)
      .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
      .map((b) => `${a.words} | ${b.words}`),
  )
}

/** Texts that reach out of the picture. */
export function clipped(boxes: readonly TextBox[], widthPx: number, heightPx: number): readonly string[] {
  return boxes
    .filter(
      ({ left, right, top, bottom }) =>
        left < -0.5 || right > widthPx + 0.5 || top < -0.5 || bottom > heightPx + 0.5,
    )
    .map(({ words }) => words)
}
