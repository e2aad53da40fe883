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
  // Made anew in every frame of a drag: nothing is allocated beside what the page needs.
  const properties: Record<string, unknown> = { key }
  for (const name in node.attributes) properties[SPELLINGS[name] ?? name] = node.attributes[name]
  return createElement(node.tag, properties, ...node.children.map(built))
}

export function MarkupView({ nodes }: { readonly nodes: readonly (Markup | string)[] }): ReactNode {
  return createElement(Fragment, {}, ...nodes.map(built))
}
