// Typical fibres. ITU-T attributes are from memory: MFD range of the nominal value and its tolerance, cladding.

import type { FibreEntry } from '../schema/parts'
import { COMMON_PRACTICE, remark, typical } from './verify'

interface FibreRow {
  readonly id: string
  readonly name: string
  readonly mfdUm: number
  readonly plusMinusUm: number
  readonly claddingPlusMinusUm: number
  readonly keepsPolarisation?: boolean
  readonly madeToOrder?: boolean
  readonly index?: number
  readonly source: string
}

const ITU = (recommendation: string, text: string) =>
  `ITU-T ${recommendation} attribute table, not checked against the document: ${text}`

const ROWS: readonly FibreRow[] = [
  {
    id: 'fibre-g652d-1310',
    name: 'ITU-T G.652.D class, 1310 nm',
    mfdUm: 9.2,
    plusMinusUm: 0.4,
    claddingPlusMinusUm: 0.7,
    source: ITU(
      'G.652.D',
      'nominal MFD 8.6 to 9.2 µm at 1310 nm, tolerance ± 0.4 µm; core concentricity error at most 0.6 µm',
    ),
  },
  {
    id: 'fibre-g652d-1550',
    name: 'ITU-T G.652.D class, 1550 nm',
    mfdUm: 10.4,
    plusMinusUm: 0.5,
    claddingPlusMinusUm: 0.7,
    source: `the recommendation gives no MFD at 1550 nm; ${COMMON_PRACTICE}`,
  },
  {
    id: 'fibre-g657a-1310',
    name: 'ITU-T G.657.A class, 1310 nm',
    mfdUm: 8.9,
    plusMinusUm: 0.4,
    claddingPlusMinusUm: 0.7,
    source: ITU(
      'G.657.A',
      'nominal MFD 8.6 to 9.2 µm at 1310 nm, tolerance ± 0.4 µm; core concentricity error at most 0.5 µm',
    ),
  },
  {
    id: 'fibre-g657a-1550',
    name: 'ITU-T G.657.A class, 1550 nm',
    mfdUm: 9.8,
    plusMinusUm: 0.5,
    claddingPlusMinusUm: 0.7,
    source: COMMON_PRACTICE,
  },
  {
    id: 'fibre-g654c-1550',
    name: 'ITU-T G.654.C class, 1550 nm',
    mfdUm: 10,
    plusMinusUm: 0.7,
    claddingPlusMinusUm: 1,
    source: ITU('G.654.C', 'nominal MFD 9.5 to 10.5 µm at 1550 nm, tolerance ± 0.7 µm'),
  },
  {
    id: 'fibre-g654e-1550',
    name: 'ITU-T G.654.E class, 1550 nm',
    mfdUm: 12,
    plusMinusUm: 0.7,
    claddingPlusMinusUm: 1,
    source: ITU('G.654.E', 'nominal MFD 11.5 to 12.5 µm at 1550 nm, tolerance ± 0.7 µm'),
  },
  {
    id: 'fibre-pm-1550',
    name: 'Polarisation-maintaining, 1550 nm',
    mfdUm: 10,
    plusMinusUm: 0.8,
    claddingPlusMinusUm: 1,
    keepsPolarisation: true,
    source: `${COMMON_PRACTICE}: 9 to 10.5 µm ± 0.5 to 1.0 µm`,
  },
  {
    id: 'fibre-high-na-3.2',
    name: 'High-NA bridge, 3.2 µm, 1550 nm',
    mfdUm: 3.2,
    plusMinusUm: 0.3,
    claddingPlusMinusUm: 1,
    index: 1.46,
    source: `${COMMON_PRACTICE}: NA 0.35 to 0.41, MFD 3 to 5 µm ± 0.3 µm; arrays are polarisation-maintaining only if made to order`,
  },
  {
    id: 'fibre-high-na-4.1',
    name: 'High-NA bridge, 4.1 µm, 1550 nm',
    mfdUm: 4.1,
    plusMinusUm: 0.3,
    claddingPlusMinusUm: 1,
    index: 1.458,
    source: `${COMMON_PRACTICE}: splice to a standard fibre about 0.1 dB with core diffusion`,
  },
  {
    id: 'fibre-high-na-pm',
    name: 'High-NA bridge, polarisation-maintaining, 4 µm',
    mfdUm: 4,
    plusMinusUm: 0.4,
    claddingPlusMinusUm: 1,
    keepsPolarisation: true,
    madeToOrder: true,
    index: 1.459,
    source: `${COMMON_PRACTICE}; made to order`,
  },
]

interface CoreRow {
  readonly id: string
  readonly name: string
  readonly coreUm: number
  readonly corePlusMinusUm: number
  readonly na: number
  readonly keepsPolarisation?: boolean
  readonly madeToOrder?: boolean
  readonly index?: number
  readonly source: string
}

/** Known by their cores, so that the mode follows at any wavelength; single-mode above the wavelength named. */
const CORE_ROWS: readonly CoreRow[] = [
  {
    id: 'fibre-core-standard',
    name: 'Standard single-mode fibre, core geometry',
    coreUm: 8.2,
    corePlusMinusUm: 0.3,
    na: 0.12,
    source: `${COMMON_PRACTICE}; the core gives 9.1 µm at 1310 nm and 10.4 µm at 1550 nm`,
  },
  {
    id: 'fibre-core-pm',
    name: 'Polarisation-maintaining fibre, core geometry',
    coreUm: 8.5,
    corePlusMinusUm: 0.4,
    na: 0.125,
    keepsPolarisation: true,
    source: `${COMMON_PRACTICE}; the core gives about 10 µm at 1550 nm`,
  },
  {
    id: 'fibre-core-980',
    name: 'Single-mode fibre for 930 to 1260 nm, core geometry',
    coreUm: 5,
    corePlusMinusUm: 0.3,
    na: 0.14,
    source: `${COMMON_PRACTICE}; the core gives about 5.8 µm at 980 nm`,
  },
  {
    id: 'fibre-core-780',
    name: 'Single-mode fibre for 740 to 930 nm, core geometry',
    coreUm: 4.6,
    corePlusMinusUm: 0.3,
    na: 0.12,
    source: `${COMMON_PRACTICE}; the core gives about 5.3 µm at 780 nm`,
  },
  ...(
    [
      [1.6, 0.35, 1.455],
      [2.2, 0.41, 1.462],
      [2.6, 0.35, 1.459],
      [3, 0.3, 1.457],
      [4, 0.22, 1.454],
    ] as const
  ).map(([coreUm, na, index]) => ({
    id: `fibre-bridge-${coreUm}`,
    name: `High-NA bridge fibre, core ${coreUm} µm, NA ${na}`,
    coreUm,
    corePlusMinusUm: 0.1,
    na,
    index,
    source: `${COMMON_PRACTICE}: NA 0.22 to 0.41; spliced to a standard fibre with core diffusion`,
  })),
  {
    id: 'fibre-bridge-pm-3',
    name: 'High-NA bridge fibre, polarisation-maintaining, core 3 µm',
    coreUm: 3,
    corePlusMinusUm: 0.1,
    na: 0.3,
    keepsPolarisation: true,
    madeToOrder: true,
    index: 1.457,
    source: `${COMMON_PRACTICE}; made to order`,
  },
]

/** Fibres with a numerical aperture from here on bridge to small facets. */
export const BRIDGE_LEAST_NA = 0.2

const indexOf = (index: number | undefined): FibreEntry['index'] =>
  index === undefined
    ? { kind: 'material', material: 'fused silica' }
    : { kind: 'value', index: typical(index, '1', 0.005) }

const BY_CORE: readonly FibreEntry[] = CORE_ROWS.map((row) => ({
  id: row.id,
  name: row.name,
  remark: remark(row.source),
  mode: {
    kind: 'core',
    coreDiameter: typical(row.coreUm, 'um', row.corePlusMinusUm),
    na: typical(row.na, '1', 0.005),
  },
  claddingDiameter: typical(125, 'um', 0.7),
  index: indexOf(row.index),
  polarisationMaintaining: row.keepsPolarisation ?? false,
  ...(row.madeToOrder === undefined ? {} : { madeToOrder: row.madeToOrder }),
}))

const BY_MFD: readonly FibreEntry[] = ROWS.map((row) => ({
  id: row.id,
  name: row.name,
  remark: remark(row.source),
  mode: { kind: 'mfd', mfdX: typical(row.mfdUm, 'um', row.plusMinusUm) },
  claddingDiameter: typical(125, 'um', row.claddingPlusMinusUm),
  index: indexOf(row.index),
  polarisationMaintaining: row.keepsPolarisation ?? false,
  ...(row.madeToOrder === undefined ? {} : { madeToOrder: row.madeToOrder }),
}))

export const CATALOGUE_FIBRES: readonly FibreEntry[] = [...BY_MFD, ...BY_CORE]
