// The little Markdown that the guide is written in, as elements: headings, paragraphs, lists, tables, emphasis and code. Its
// pictures are for readers of the files; in the app the screens are at hand.

import type { ReactNode } from 'react'

type GuideBlock =
  | { readonly kind: 'heading'; readonly level: number; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'list'; readonly start: number | null; readonly items: readonly string[] }
  | { readonly kind: 'code'; readonly text: string }
  | {
      readonly kind: 'table'
      readonly head: readonly string[]
      readonly rows: readonly (readonly string[])[]
    }

const ITEM = /^(?:- |\d+\. )/
const PICTURE = /^!\[/

const cells = (line: string) =>
  line
    .split('|')
    .slice(1, -1)
    .map((cell) => cell.trim())

/** Blocks of a page: they are separated by empty lines; a list has an item on every line that begins like one. */
function guideBlocks(markdown: string): readonly GuideBlock[] {
  return markdown
    .trim()
    .split(/\n\s*\n/)
    .filter((block) => !PICTURE.test(block))
    .map((block): GuideBlock => {
      const heading = /^(#{1,4}) (.*)$/.exec(block)
      if (heading !== null) {
        return { kind: 'heading', level: heading[1]?.length ?? 1, text: heading[2] ?? '' }
      }
      if (/^ {4}/.test(block)) return { kind: 'code', text: block.trim() }
      if (block.startsWith('|')) {
        const [head = '', , ...rows] = block.split('\n')
        return { kind: 'table', head: cells(head), rows: rows.map(cells) }
      }
      if (!ITEM.test(block)) return { kind: 'paragraph', text: block.replaceAll('\n', ' ') }
      const items = block
        .split(/\n(?=- |\d+\. )/)
        .map((item) => item.replace(ITEM, '').replaceAll(/(?<!\s)\s*\n\s*/g, ' '))
      return { kind: 'list', start: /^\d/.test(block) ? Number.parseInt(block, 10) : null, items }
    })
}

/** Text with **strong**, *emphasis*, `code`; links are shown by their words. */
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

function GuideTable({ head, rows }: Pick<Extract<GuideBlock, { kind: 'table' }>, 'head' | 'rows'>) {
  return (
    <table>
      <thead>
        <tr>
          {head.map((cell) => (
            <th key={cell} scope="col">
              {inline(cell)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row[0]}>
            {row.map((cell) => (
              <td key={cell}>{inline(cell)}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  )
}

export function GuideText({ markdown }: { readonly markdown: string }) {
  return guideBlocks(markdown).map((block, at) => {
    const key = `${at} ${block.kind}`
    if (block.kind === 'paragraph') return <p key={key}>{inline(block.text)}</p>
    if (block.kind === 'heading') {
      return block.level === 1 ? <h3 key={key}>{block.text}</h3> : <h4 key={key}>{block.text}</h4>
    }
    if (block.kind === 'code') return <pre key={key}>{block.text}</pre>
    if (block.kind === 'table') return <GuideTable key={key} head={block.head} rows={block.rows} />
    const items = block.items.map((item) => <li key={item}>{inline(item)}</li>)
    if (block.start === null) return <ul key={key}>{items}</ul>
    return (
      <ol key={key} start={block.start}>
        {items}
      </ol>
    )
  })
}
