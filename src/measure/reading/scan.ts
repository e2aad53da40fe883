// The scan that the reader obtains from a measurement file, in core units, with everything that was left open.

export type ScanKind = 'far-field' | 'offset' | 'raster' | 'loopback' | 'unknown'

/** 'length' is a waveguide or fibre length of a cut-back series; 'loss' is in positive dB. */
export type ColumnRole = 'angle' | 'position' | 'length' | 'power' | 'loss' | 'other'

/** Angles in rad, lengths in um, absolute power in uW, any other linear signal as 'relative', losses in dB. */
export type CoreUnit = 'rad' | 'um' | 'uW' | 'relative' | 'dB' | 'none'

export interface ScanColumn {
  readonly label: string
  readonly role: ColumnRole
  /** The unit as written in the file; null where there is none. */
  readonly unit: string | null
  readonly coreUnit: CoreUnit
  /** In file order, one for each row read; every column has the same length. */
  readonly values: Float64Array
}

export interface RefusedLine {
  /** Counted from 1, as an editor shows it. */
  readonly line: number
  /** At most 120 characters of it. */
  readonly text: string
  readonly reason: string
}

/** A question that the file leaves open. Answer by reading again with `answers[id]` set to an alternative. */
export interface Doubt {
  readonly id: string
  readonly question: string
  readonly assumed: string
  readonly alternatives: readonly string[]
}

export type ScanAnswers = Readonly<Record<string, string>>

export type FindingCode =
  | 'binary'
  | 'no-numbers'
  | 'one-column'
  | 'one-point'
  | 'all-zero'
  | 'all-same'
  | 'flat-top'
  | 'reversed'
  | 'unordered'
  | 'duplicates'
  | 'no-roles'
  | 'thinned'
  | 'wide'
  | 'too-large'
  | 'too-small'

export interface Finding {
  readonly code: FindingCode
  /** An error leaves nothing to evaluate; a remark is handled by the evaluation. */
  readonly severity: 'error' | 'remark'
  readonly message: string
}

export interface ScanMetadata {
  readonly wavelengthUm?: number
  readonly probeMfdUm?: number
  /** Comment and preamble lines, unchanged. */
  readonly notes: readonly string[]
}

export interface Scan {
  readonly kind: ScanKind
  readonly delimiter: string
  readonly decimalMark: '.' | ','
  readonly columns: readonly ScanColumn[]
  readonly metadata: ScanMetadata
  readonly rowsRead: number
  readonly refusedLines: readonly RefusedLine[]
  readonly doubts: readonly Doubt[]
  readonly findings: readonly Finding[]
}
