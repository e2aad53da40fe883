// What has been measured.

import { type Cell, table } from '../document/blocks'
import type { Evidence } from '../evidence'
import type { SectionSpec } from '../section'

const origin = ({ name, method, fileName, date }: Evidence): readonly Cell[] => [
  name,
  method,
  `${fileName}, ${date}`,
]

export const evidenceSection: SectionSpec = {
  id: 'evidence',
  title: 'Measurement evidence',
  build: ({ evidence }) =>
    evidence.length === 0
      ? []
      : [
          table(
            'Measured, with expanded uncertainty (k = 2)',
            ['Measurement', 'Method', 'File', 'Quantity', 'Value', '±', 'Unit'],
            evidence.flatMap((each): readonly (readonly Cell[])[] =>
              each.refused !== ''
                ? [[...origin(each), `no result: ${each.refused}`, '', '', '']]
                : each.rows.map(({ label, value, expanded, unit }) => [
                    ...origin(each),
                    label,
                    value,
                    expanded ?? '',
                    unit,
                  ]),
            ),
          ),
        ],
}
