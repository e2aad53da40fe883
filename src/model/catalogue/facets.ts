// Typical chip facets: modes that inverse tapers and mode converters of the material platforms show.

import type { FacetEntry } from '../schema/parts'
import { COMMON_PRACTICE, remark, typical } from './verify'

interface FacetRow {
  readonly id: string
  readonly name: string
  readonly mfdXUm: number
  readonly mfdYUm: number
  readonly plusMinusUm: number
  readonly index: number
  readonly taperDb: number
  readonly leakDb?: number
  readonly tipWidthUm: number
  readonly routingWidthUm: number
  readonly heightUm: number
  readonly depthUm: number
  /** Absent for a guide without a taper. */
  readonly taperLengthUm?: number
}

const ROWS: readonly FacetRow[] = [
  {
    id: 'facet-silicon',
    name: 'Silicon inverse taper, buried',
    mfdXUm: 3,
    mfdYUm: 2.8,
    plusMinusUm: 0.3,
    index: 1.46,
    taperDb: 0.4,
    leakDb: 0.2,
    tipWidthUm: 0.16,
    routingWidthUm: 0.45,
    heightUm: 0.22,
    depthUm: 2.5,
    taperLengthUm: 200,
  },
  {
    id: 'facet-silicon-wide',
    name: 'Silicon inverse taper with overlay waveguide',
    mfdXUm: 5.5,
    mfdYUm: 5,
    plusMinusUm: 0.5,
    index: 1.46,
    taperDb: 0.6,
    leakDb: 0.5,
    tipWidthUm: 0.12,
    routingWidthUm: 0.45,
    heightUm: 0.22,
    depthUm: 5,
    taperLengthUm: 300,
  },
  {
    id: 'facet-nitride',
    name: 'Silicon-nitride inverse taper',
    mfdXUm: 3.4,
    mfdYUm: 3,
    plusMinusUm: 0.3,
    index: 1.48,
    taperDb: 0.25,
    tipWidthUm: 0.3,
    routingWidthUm: 1,
    heightUm: 0.2,
    depthUm: 4,
    taperLengthUm: 300,
  },
  {
    id: 'facet-nitride-wide',
    name: 'Silicon-nitride inverse taper, widened mode',
    mfdXUm: 5.4,
    mfdYUm: 5,
    plusMinusUm: 0.5,
    index: 1.46,
    taperDb: 0.4,
    leakDb: 0.3,
    tipWidthUm: 0.22,
    routingWidthUm: 1,
    heightUm: 0.2,
    depthUm: 5,
    taperLengthUm: 500,
  },
  {
    id: 'facet-niobate',
    name: 'Thin-film lithium-niobate taper',
    mfdXUm: 3,
    mfdYUm: 3,
    plusMinusUm: 0.4,
    index: 1.6,
    taperDb: 0.6,
    leakDb: 0.2,
    tipWidthUm: 0.2,
    routingWidthUm: 1.2,
    heightUm: 0.4,
    depthUm: 3,
    taperLengthUm: 300,
  },
  {
    id: 'facet-iii-v',
    name: 'III-V ridge with spot-size converter',
    mfdXUm: 3.2,
    mfdYUm: 2.4,
    plusMinusUm: 0.3,
    index: 3.2,
    taperDb: 0.8,
    tipWidthUm: 0.5,
    routingWidthUm: 2,
    heightUm: 0.5,
    depthUm: 1.5,
    taperLengthUm: 400,
  },
  {
    id: 'facet-silica',
    name: 'Planar silica waveguide',
    mfdXUm: 9.5,
    mfdYUm: 9.2,
    plusMinusUm: 0.5,
    index: 1.45,
    taperDb: 0.1,
    tipWidthUm: 6,
    routingWidthUm: 6,
    heightUm: 6,
    depthUm: 20,
  },
]

export const CATALOGUE_FACETS: readonly FacetEntry[] = ROWS.map((row) => ({
  id: row.id,
  name: row.name,
  remark: remark(`use the foundry's data; ${COMMON_PRACTICE}`),
  mfdX: typical(row.mfdXUm, 'um', row.plusMinusUm),
  mfdY: typical(row.mfdYUm, 'um', row.plusMinusUm),
  index: { kind: 'value', index: typical(row.index, '1', 0.02) },
  taperLoss: typical(row.taperDb, 'dB', row.taperDb / 2),
  ...(row.leakDb === undefined ? {} : { substrateLeakage: typical(row.leakDb, 'dB', row.leakDb / 2) }),
  ...(row.taperLengthUm === undefined
    ? {}
    : {
        tipWidth: typical(row.tipWidthUm, 'um'),
        routingWidth: typical(row.routingWidthUm, 'um'),
        taperLength: typical(row.taperLengthUm, 'um'),
      }),
  guideWidth: typical(row.tipWidthUm, 'um'),
  guideHeight: typical(row.heightUm, 'um'),
  depth: typical(row.depthUm, 'um'),
}))
