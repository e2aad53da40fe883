// Tolerances in a table, each with the button that halves it and runs again.

import type { ReactNode } from 'react'
import { UNCERTAINTY } from '../../analysis/path/vector/valueReaders'
import type { Path } from '../../model/issue'
import { withUnitLabel } from '../../model/quantity/units'
import { plainText } from '../../numerics/numberText'
import { HalveButton } from './HalveButton'

/** What a measurement leaves open is narrowed by measuring again, not by an order. */
const isTightened = (path: Path) => path.at(-1) !== UNCERTAINTY

interface Tightenable {
  readonly path: Path
  readonly label: string
  /** Present half width, and its unit. */
  readonly plusMinus: number
  readonly unit: string
}

export interface TightenColumn<T> {
  readonly head: string
  readonly className: 'number' | 'share'
  readonly cell: (line: T) => ReactNode
}

export function TightenTable<T extends Tightenable>({
  caption,
  className,
  lines,
  columns,
  stale,
  onTighten,
}: {
  readonly caption: string
  readonly className: string
  readonly lines: readonly T[]
  /** What is known of each tolerance, next to its width. */
  readonly columns: readonly TightenColumn<T>[]
  readonly stale: boolean
  /** Absent on paper. */
  readonly onTighten: ((path: Path) => void) | undefined
}) {
  return (
    <div className="wide-table">
      <table className={className}>
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">Tolerance</th>
            <th scope="col" className="number">
              ±
            </th>
            {columns.map((column) => (
              <th
                key={column.head}
                scope="col"
                className={column.className === 'number' ? 'number' : undefined}
              >
                {column.head}
              </th>
            ))}
            {onTighten !== undefined && (
              <th scope="col">
                <span className="visually-hidden">Tighten</span>
              </th>
            )}
          </tr>
        </thead>
        <tbody>
          {lines.map((line) => (
            <tr key={line.path.join('/')} data-tolerance={line.label}>
              <th scope="row">{line.label}</th>
              <td className="number">{withUnitLabel(plainText(line.plusMinus, 3), line.unit)}</td>
              {columns.map((column) => (
                <td key={column.head} className={column.className}>
                  {column.cell(line)}
                </td>
              ))}
              {onTighten !== undefined && (
                <td>
                  {isTightened(line.path) && (
                    <HalveButton path={line.path} label={line.label} stale={stale} onTighten={onTighten} />
                  )}
                </td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
