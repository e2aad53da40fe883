// The units that may be typed or that a file may hold, and their size in the core's unit of the same dimension.
// Core units: length um, angle rad, loss dB (positive), temperature degC, power uW,
// irradiance uW/um^2, the rest as ratios.

const DIMENSIONS = {
  length: { nm: 1e-3, um: 1, mm: 1e3, cm: 1e4, m: 1e6 },
  angle: { rad: 1, mrad: 1e-3, deg: Math.PI / 180 },
  decibel: { dB: 1 },
  temperature: { degC: 1 },
  ratio: { '1': 1, '%': 1e-2 },
  perKelvin: { '1/K': 1, 'ppm/K': 1e-6 },
  power: { uW: 1, nW: 1e-3, mW: 1e3, W: 1e6 },
  irradiance: { 'W/cm^2': 1e-2, 'kW/cm^2': 10, 'MW/cm^2': 1e4, 'mW/um^2': 1e3 },
  decibelPerLength: { 'dB/um': 1, 'dB/mm': 1e-3, 'dB/cm': 1e-4, 'dB/m': 1e-6 },
} as const

export type Dimension = keyof typeof DIMENSIONS
export type Unit = { [D in Dimension]: keyof (typeof DIMENSIONS)[D] }[Dimension] & string

export function unitsOf(dimension: Dimension): readonly Unit[] {
  return Object.keys(DIMENSIONS[dimension]) as Unit[]
}

/** Size of one `unit` in the core's unit, or null where the unit is of another kind. */
export function unitFactor(dimension: Dimension, unit: string): number | null {
  const table: Readonly<Record<string, number>> = DIMENSIONS[dimension]
  return Object.hasOwn(table, unit) ? (table[unit] ?? null) : null
}

/** The dimension that a unit belongs to, or null where it is none of ours. */
export function dimensionOf(unit: string): Dimension | null {
  const names = Object.keys(DIMENSIONS) as Dimension[]
  return names.find((dimension) => unitFactor(dimension, unit) !== null) ?? null
}

const SCREEN_NAMES: Readonly<Partial<Record<Unit, string>>> = {
  um: 'µm',
  uW: 'µW',
  deg: '°',
  degC: '°C',
  '1': '',
  '1/K': 'K⁻¹',
  'dB/um': 'dB/µm',
  'W/cm^2': 'W/cm²',
  'kW/cm^2': 'kW/cm²',
  'MW/cm^2': 'MW/cm²',
  'mW/um^2': 'mW/µm²',
}

/** The unit as it is printed on screen and paper. */
export function unitLabel(unit: Unit): string {
  return SCREEN_NAMES[unit] ?? unit
}

/** Text of a number with the printed name of its unit: no space before the degree sign of an angle, one before every other. */
export function withUnitLabel(text: string, label: string): string {
  return label === '' || label === '°' ? `${text}${label}` : `${text} ${label}`
}

/** The same for a unit as it is stored. */
export function withUnit(text: string, unit: Unit): string {
  return withUnitLabel(text, unitLabel(unit))
}
