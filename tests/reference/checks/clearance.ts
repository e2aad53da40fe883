// Whether parts fit: closed forms of plane geometry.

import { grooveHeightUm, SILICON_WALL_RAD } from '../../../src/analysis/clearance/vGroove'
import type { CheckRow } from '../checkRow'

const GEOMETRY = 'plane geometry: r sqrt 3 - W / sqrt 2; common practice, no source'

const groove = (widthUm: number, expected: number): CheckRow => ({
  id: `v-groove-${widthUm}`,
  quantity: 'height of the centre of a fibre above the surface, V-groove in (100) silicon',
  source: GEOMETRY,
  input: `diameter um 125, width um ${widthUm}, sidewalls arctan sqrt 2`,
  expected,
  unit: 'um',
  tolerance: 1e-6,
  ours: () => grooveHeightUm(62.5, widthUm, SILICON_WALL_RAD),
})

export const clearanceChecks: readonly CheckRow[] = [
  {
    id: 'v-groove-angle',
    quantity: 'angle between the sidewalls of a V-groove and the (100) surface of silicon',
    source: 'angle between (111) and (100) of a cubic crystal, arctan sqrt 2; common practice, no source',
    input: 'cubic crystal',
    expected: 54.735610317,
    unit: 'deg',
    tolerance: 1e-8,
    ours: () => (SILICON_WALL_RAD * 180) / Math.PI,
  },
  groove(130, 16.329293919),
  groove(150, 2.187158295),
]
