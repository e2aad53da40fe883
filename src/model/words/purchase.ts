// What purchasing adds to a design: how many assemblies, what the supplier must know of each part, and how it is inspected.

/** Texts that an order states of a part in addition to its numbers. */
const ORDER_TEXTS = ['supplier', 'partNumber', 'connector', 'finish', 'key', 'note'] as const
export type OrderText = (typeof ORDER_TEXTS)[number]

export const ORDER_TEXT_LABELS: Readonly<Record<OrderText, string>> = {
  supplier: 'Supplier',
  partNumber: 'Part number',
  connector: 'Connector at the far end',
  finish: 'End-face finish',
  key: 'Key orientation',
  note: 'Additional terms',
}

/** What incoming inspection assumes by default, %: common practice, no source. */
export const INSPECTION_DEFAULTS = {
  /** A lot with `defectivePercent` outside its limits is rejected with this probability. */
  confidencePercent: 95,
  defectivePercent: 5,
  allowedFailures: 0,
  /** A part exactly at its limit is accepted with this probability. */
  guardRiskPercent: 5,
} as const

export const PURCHASE_LIMITS = {
  assemblies: [1, 1_000_000],
  sparesPercent: [0, 1000],
  yieldLossPercent: [0, 99],
  confidencePercent: [50, 99.99],
  defectivePercent: [0.01, 50],
  allowedFailures: [0, 50],
  guardRiskPercent: [0.01, 49],
  uncertainty: [1e-9, 1e6],
  items: 500,
} as const
