// Typical fillings of a gap, with the change of their index with temperature.

import type { MediumEntry } from '../schema/parts'
import { COMMON_PRACTICE, remark, typical } from './verify'

const ADHESIVE_SLOPE =
  'dn/dT of optical adhesives about −0.0002 K⁻¹, towards −0.0004 K⁻¹ at the glass transition: J. Electron. Mater. 34 (2005) 1378'

function filling(
  id: string,
  name: string,
  state: MediumEntry['state'],
  index: number,
  slopePerK: number,
  source: string,
): MediumEntry {
  return {
    id,
    name,
    state,
    remark: remark(source),
    index: { kind: 'value', index: typical(index, '1', 0.005) },
    thermoOptic: typical(slopePerK, '1/K'),
  }
}

export const CATALOGUE_MEDIA: readonly MediumEntry[] = [
  {
    id: 'air',
    name: 'Air',
    state: 'gas',
    remark: remark('dispersion of dry air'),
    index: { kind: 'material', material: 'air' },
    thermoOptic: typical(-1e-6, '1/K'),
  },
  filling('gel-1.45', 'Index gel, 1.45', 'gel', 1.45, -3.5e-4, COMMON_PRACTICE),
  filling('gel-1.40', 'Silicone gel, 1.40', 'gel', 1.4, -4e-4, COMMON_PRACTICE),
  filling('adhesive-1.46', 'Optical adhesive, index of silica', 'adhesive', 1.46, -2e-4, ADHESIVE_SLOPE),
  filling('adhesive-1.50', 'Optical adhesive, 1.50', 'adhesive', 1.5, -2e-4, ADHESIVE_SLOPE),
  filling('adhesive-1.55', 'Structural optical adhesive, 1.55', 'adhesive', 1.55, -2e-4, ADHESIVE_SLOPE),
]
