// Every text that the app can show: string literals, templates (with {} for what is put in) and the text of JSX, by the parser.

import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { parseAst } from 'vite'

export interface SourceString {
  readonly file: string
  readonly line: number
  readonly text: string
  /** True for the text of JSX, which may go on from a value before it. */
  readonly isPiece: boolean
}

type Node = { readonly type: string; readonly start: number } & Readonly<Record<string, unknown>>

/** Attributes whose values are read by the app, not by people. */
const UNREAD =
  /^(className|type|role|key|id|htmlFor|name|href|d|viewBox|transform|fill|stroke\w*|data-.*|aria-(?!label$|description$|roledescription$).*|style|method|target|rel|kind|tone|inputMode|autoComplete|points)$/

const isNode = (value: unknown): value is Node =>
  typeof value === 'object' && value !== null && typeof (value as Node).type === 'string'

function collect(file: string, code: string, found: SourceString[]): void {
  const add = (node: Node, text: string) =>
    found.push({
      file,
      line: code.slice(0, node.start).split('\n').length,
      text,
      isPiece: node.type === 'JSXText',
    })
  const within = (value: unknown): void => {
    if (Array.isArray(value)) for (const each of value) within(each)
    else if (isNode(value)) walk(value)
  }
  const walk = (node: Node): void => {
    if (node.type.startsWith('TS') && !/^TS(As|Satisfies|NonNull)Expression$/.test(node.type)) return
    switch (node.type) {
      case 'ImportDeclaration':
      case 'ExportAllDeclaration':
        return
      case 'JSXText':
        add(node, String(node.value).replace(/\s+/g, ' ').trim())
        return
      case 'JSXAttribute': {
        const name = (node.name as { readonly name?: unknown }).name
        if (typeof name === 'string' && UNREAD.test(name)) return
        within(node.value)
        return
      }
      case 'Literal':
        if (typeof node.value === 'string') add(node, node.value)
        return
      case 'TemplateLiteral': {
        const parts = node.quasis as readonly { readonly value: { readonly cooked: string } }[]
        add(node, parts.map(({ value }) => value.cooked).join('{}'))
        within(node.expressions)
        return
      }
      default:
        for (const [name, value] of Object.entries(node)) if (name !== 'type') within(value)
    }
  }
  within(parseAst(code, { lang: file.endsWith('x') ? 'tsx' : 'ts' }).body)
}

function filesBelow(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
}

/** All strings below a folder that read as words: two words, or one that starts with a capital. */
export function sourceStrings(folder: string): readonly SourceString[] {
  const found: SourceString[] = []
  for (const file of filesBelow(folder)) collect(file, readFileSync(file, 'utf8'), found)
  return found.filter(({ text }) => /[\wµ°±)}] [\w({°]|^[A-Z][a-z]/.test(text))
}
