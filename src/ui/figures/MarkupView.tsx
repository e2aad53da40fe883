// Markup of figures and sheets as elements of the page.

import { createElement, Fragment, type ReactNode } from 'react'
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

function built(node: Markup | string, key: number): ReactNode {
  if (typeof node === 'string') return node
  const attributes = Object.entries(node.attributes).map(([name, value]) => [SPELLINGS[name] ?? name, value])
  return createElement(node.tag, { key, ...Object.fromEntries(attributes) }, ...node.children.map(built))
}

export function MarkupView({ nodes }: { readonly nodes: readonly (Markup | string)[] }): ReactNode {
  return createElement(Fragment, {}, ...nodes.map(built))
}
