// The little Markdown that the guide is written in, as elements: headings, paragraphs, lists, emphasis and code.

import type { ReactNode } from 'react'

export type GuideBlock =
  | { readonly kind: 'heading'; readonly level: number; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'list'; readonly ordered: boolean; readonly items: readonly string[] }

const ITEM = /^(?:- |\d+\. )/

/** Blocks of a page: they are parted by empty lines; a list has an item on every line that begins like one. */
export function guideBlocks(markdown: string): readonly GuideBlock[] {
  return markdown
    .trim()
    .split(/\n\s*\n/)
    .map((block): GuideBlock => {
      const heading = /^(#{1,4}) (.*)$/.exec(block)
      if (heading !== null) {
        return { kind: 'heading', level: heading[1]?.length ?? 1, text: heading[2] ?? '' }
      }
      if (!ITEM.test(block)) return { kind: 'paragraph', text: block.replaceAll('\n', ' ') }
      const items = block
        .split(/\n(?=- |\d+\. )/)
        .map((item) => item.replace(ITEM, '').replaceAll(/(?<!\s)\s*\n\s*/g, ' '))
      return { kind: 'list', ordered: /^\d/.test(block), items }
    })
}

/** Text with **strong**, *emphasis*, `code`; the words of links stand for them. */
function inline(text: string): readonly ReactNode[] {
  return text
    .replaceAll(/\[([^[\]]+)\]\([^()]+\)/g, '$1')
    .split(/(\*\*[^*]+\*\*|\*[^*]+\*|`[^`]+`)/)
    .map((part, at) => {
      const key = `${at} ${part}`
      if (part.startsWith('**')) return <strong key={key}>{part.slice(2, -2)}</strong>
      if (part.startsWith('*')) return <em key={key}>{part.slice(1, -1)}</em>
      return part.startsWith('`') ? <code key={key}>{part.slice(1, -1)}</code> : part
    })
}

export function GuideText({ markdown }: { readonly markdown: string }) {
  return guideBlocks(markdown).map((block, at) => {
    const key = `${at} ${block.kind}`
    if (block.kind === 'paragraph') return <p key={key}>{inline(block.text)}</p>
    if (block.kind === 'heading') {
      return block.level === 1 ? <h3 key={key}>{block.text}</h3> : <h4 key={key}>{block.text}</h4>
    }
    const items = block.items.map((item) => <li key={item}>{inline(item)}</li>)
    return block.ordered ? <ol key={key}>{items}</ol> : <ul key={key}>{items}</ul>
  })
}
