import { groupIndex, refractiveIndex } from '../../../src/optics/materials/materials'
import { type CheckRow, recordedRow } from '../checkRow'

const index = (material: string, wavelengthUm: number) => () => refractiveIndex(material, wavelengthUm)

export const materialChecks: readonly CheckRow[] = [
  recordedRow('n-silica-1.55', index('fused silica', 1.55)),
  recordedRow('n-sin-1.31', index('silicon nitride', 1.31), {
    quantity: 'refractive index of silicon nitride',
  }),
  recordedRow('n-sin-1.55', index('silicon nitride', 1.55), {
    quantity: 'refractive index of silicon nitride',
  }),
  recordedRow('n-borosilicate-crown-1.55', index('borosilicate crown glass', 1.55)),
  recordedRow('n-sapphire-o-1.31', index('sapphire', 1.31), {
    quantity: 'refractive index of sapphire, ordinary ray',
  }),
  recordedRow('n-sapphire-o-1.55', index('sapphire', 1.55), {
    quantity: 'refractive index of sapphire, ordinary ray',
  }),
  recordedRow('ng-silica-1.31', () => groupIndex('fused silica', 1.31)),
  recordedRow('ng-silica-1.55', () => groupIndex('fused silica', 1.55)),
  recordedRow('n-si-li-1.31', index('silicon', 1.31)),
  {
    id: 'n-si-li-1.55',
    quantity: 'refractive index of silicon, 293 K',
    source:
      'H. H. Li, J. Phys. Chem. Ref. Data 9 (1980) 561, table entry; refractiveindex.info database (CC0)',
    published: true,
    input: 'lambda um 1.55',
    expected: 3.4757,
    unit: '1',
    tolerance: 1e-4,
    ours: index('silicon', 1.55),
  },
  recordedRow('n-si-salz-1.55', index('silicon (Salzberg and Villa)', 1.55)),
  recordedRow('n-air-1.31', index('air', 1.31)),
  recordedRow('n-air-1.55', index('air', 1.55)),
]
