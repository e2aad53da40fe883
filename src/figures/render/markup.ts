// Markup as plain data: one tree that a page turns into elements and a file into text, so that screen, paper and file
// cannot differ.

export interface Markup {
  readonly tag: string
  readonly attributes: Readonly<Record<string, string | number>>
  readonly children: readonly (Markup | string)[]
}

/** What an element may hold. */
export type Child = Markup | string | null | readonly Child[]

/** An element. Children may be nested lists; null leaves a place empty. */
export function element(
  tag: string,
  attributes: Readonly<Record<string, string | number | undefined>> = {},
  ...children: readonly Child[]
): Markup {
  const kept: Record<string, string | number> = {}
  for (const name in attributes) {
    const value = attributes[name]
    if (value !== undefined) kept[name] = value
  }
  const within: (Markup | string)[] = []
  addTo(within, children)
  return { tag, attributes: kept, children: within }
}

function addTo(within: (Markup | string)[], children: readonly Child[]): void {
  for (const child of children) {
    if (child === null) continue
    if (isList(child)) addTo(within, child)
    else within.push(child)
  }
}

function isList(child: Child): child is readonly Child[] {
  return Array.isArray(child)
}

/** Elements of HTML without an end tag. */
const VOID_TAGS: ReadonlySet<string> = new Set(['meta', 'wbr'])

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}

/** What XML cannot hold at all: control characters and lone halves of surrogate pairs. */
const UNWRITABLE = /(?![\t\n\r\u007f-\u009f])[\p{Cc}\p{Surrogate}\ufffe\uffff]/gu

/** Text without what a file of markup or a spreadsheet cannot hold; each such character becomes U+FFFD. */
export function writable(text: string): string {
  return text.replace(UNWRITABLE, '\ufffd')
}

function escaped(text: string): string {
  return writable(text).replace(/[&<>"']/g, (letter) => ESCAPES[letter] ?? letter)
}

/** The tree as text, good as HTML and, below an svg element, as XML. */
export function markupText(node: Markup | string): string {
  if (typeof node === 'string') return escaped(node)
  const { tag, attributes, children } = node
  const written = Object.entries(attributes).map(([name, value]) => ` ${name}="${escaped(String(value))}"`)
  const start = `<${tag}${written.join('')}>`
  if (VOID_TAGS.has(tag)) return start
  // The text of a style element is ours and is not escaped by HTML's rules.
  const inner = tag === 'style' ? children.join('') : children.map(markupText).join('')
  return `${start}${inner}</${tag}>`
}
