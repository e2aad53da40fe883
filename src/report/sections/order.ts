// What to order for the chosen candidate.

import { type Block, table, text } from '../document/blocks'
import type { OrderLine } from '../orderLines'
import { orderList } from '../orderList'
import type { SectionSpec } from '../section'
import type { SheetContext } from '../sheet'

export const ORDER_COLUMNS: readonly { readonly field: keyof OrderLine; readonly label: string }[] = [
  { field: 'part', label: 'Part' },
  { field: 'quantity', label: 'Quantity' },
  { field: 'dimension', label: 'Key dimension' },
  { field: 'tolerance', label: 'Tolerance' },
  { field: 'faceAngle', label: 'End-face angle' },
  { field: 'pointing', label: 'Pointing' },
  { field: 'pitch', label: 'Pitch' },
  { field: 'coating', label: 'Coating' },
  { field: 'medium', label: 'Medium' },
  { field: 'notes', label: 'Notes' },
]

function build({ project, choice }: SheetContext): readonly Block[] {
  const order = choice === null ? null : orderList(project, choice.candidate.id)
  if (order === null) return []
  const used = ORDER_COLUMNS.filter(({ field }) => order.lines.some((line) => line[field] !== ''))
  return [
    table(
      `To order, ${order.name}`,
      used.map(({ label }) => label),
      order.lines.map((line) => used.map(({ field }) => line[field])),
    ),
    text(order.basis),
  ]
}

export const orderSection: SectionSpec = { id: 'order', title: 'Order list', build }
