// Linear thermal expansion of the solids that mounts are made of, near 20 degC.
//   change of length = expansion * length * change of temperature
// Catalogue values for a first estimate: they change with temperature, temper and grade, and the part's data sheet takes precedence.

export interface ExpansionEntry {
  /** Coefficient of linear expansion, 1/K. */
  readonly perKelvin: number
  readonly source: string
}

const TABLE = 'table of thermal expansion, clean room of Brigham Young University'
const METALS = 'Metals Handbook, desk edition (1998), not checked against the document'
const ppm = (value: number, source: string): ExpansionEntry => ({ perKelvin: value * 1e-6, source })

export const SOLIDS = {
  silicon: ppm(2.6, TABLE),
  'fused silica': ppm(0.55, `${TABLE}; T. A. Hahn and R. K. Kirby, AIP Conf. Proc. 3 (1972) 13`),
  'borosilicate glass': ppm(3.3, 'ISO 3585, not checked against the document'),
  'silicon nitride': ppm(3.2, TABLE),
  alumina: ppm(6.5, `${TABLE}: 6 to 7 ppm/K`),
  'Fe-Ni-Co sealing alloy': ppm(5.9, TABLE),
  'Fe-36Ni low-expansion alloy': ppm(1.3, TABLE),
  'stainless steel 304': ppm(17.3, METALS),
  'aluminium 6061': ppm(23.6, METALS),
  copper: ppm(16.7, TABLE),
  'copper-tungsten, 15 % copper': ppm(6.9, 'common practice, no source: 6.5 to 7.2'),
  'aluminium nitride': ppm(4.5, 'common practice, no source'),
  'gallium arsenide': ppm(6.86, TABLE),
  'indium phosphide': ppm(4.75, TABLE),
  epoxy: ppm(55, TABLE),
} as const satisfies Record<string, ExpansionEntry>

export type SolidName = keyof typeof SOLIDS
export const SOLID_NAMES = Object.keys(SOLIDS) as readonly SolidName[]
