// Markup of figures and sheets as elements of the page. In a drag most of a picture stays as it is: a part that equals what
// was there before keeps its element, which the page's library then passes over.

import { createElement, type ReactElement, useRef } from 'react'
import type { Markup } from '../../figures/render/markup'

/** Attributes that the page's library spells in its own way. */
const SPELLINGS: Readonly<Record<string, string>> = {
  class: 'className',
  colspan: 'colSpan',
  'text-anchor': 'textAnchor',
  'font-family': 'fontFamily',
  'font-size': 'fontSize',
  'font-weight': 'fontWeight',
  'stroke-width': 'strokeWidth',
  'stroke-dasharray': 'strokeDasharray',
  'stroke-linejoin': 'strokeLinejoin',
  'stroke-opacity': 'strokeOpacity',
  'fill-opacity': 'fillOpacity',
  'fill-rule': 'fillRule',
  'paint-order': 'paintOrder',
}

/** A part of the picture with the element that was made of it. */
interface Built {
  readonly node: Markup
  readonly element: ReactElement
  readonly parts: readonly (Built | string)[]
}

function sameAttributes(a: Markup['attributes'], b: Markup['attributes']): boolean {
  let count = 0
  for (const name in a) {
    if (a[name] !== b[name]) return false
    count++
  }
  for (const _ in b) count--
  return count === 0
}

function builtPart(node: Markup | string, key: number, before: Built | string | undefined): Built | string {
  if (typeof node === 'string') return node
  const old = typeof before === 'object' && before.node.tag === node.tag ? before : undefined
  if (old?.node === node) return old
  const parts = node.children.map((child, at) => builtPart(child, at, old?.parts[at]))
  if (
    old !== undefined &&
    parts.length === old.parts.length &&
    parts.every((part, at) => part === old.parts[at]) &&
    sameAttributes(node.attributes, old.node.attributes)
  ) {
    return old
  }
  const properties: Record<string, unknown> = { key }
  for (const name in node.attributes) properties[SPELLINGS[name] ?? name] = node.attributes[name]
  return { node, parts, element: createElement(node.tag, properties, ...parts.map(shownPart)) }
}

const shownPart = (part: Built | string) => (typeof part === 'string' ? part : part.element)

export function MarkupView({ nodes }: { readonly nodes: readonly (Markup | string)[] }) {
  const before = useRef<readonly (Built | string)[]>([])
  const parts = nodes.map((node, at) => builtPart(node, at, before.current[at]))
  before.current = parts
  return <>{parts.map(shownPart)}</>
}
