// Linear thermal expansion of the solids that mounts are made of, near 20 degC.
//   change of length = expansion * length * change of temperature
// Catalogue values for a first estimate: they change with temperature, temper and grade, and the part's data sheet wins.

export interface ExpansionEntry {
  /** Coefficient of linear expansion, 1/K. */
  readonly perKelvin: number
  readonly source: string
}

const TABLE = 'table of a university clean room'
const HANDBOOK = 'common handbook value, from memory'
const ppm = (value: number, source: string): ExpansionEntry => ({ perKelvin: value * 1e-6, source })

export const SOLIDS = {
  silicon: ppm(2.6, TABLE),
  'fused silica': ppm(0.55, TABLE),
  'borosilicate glass': ppm(3.3, 'ISO 3585, from memory'),
  'silicon nitride': ppm(3.2, TABLE),
  alumina: ppm(6.5, `${TABLE}: 6 to 7`),
  'Fe-Ni-Co sealing alloy': ppm(5.9, TABLE),
  'Fe-36Ni low-expansion alloy': ppm(1.3, TABLE),
  'stainless steel 304': ppm(17.3, HANDBOOK),
  'aluminium 6061': ppm(23.6, HANDBOOK),
  copper: ppm(16.7, TABLE),
  'gallium arsenide': ppm(6.86, TABLE),
  'indium phosphide': ppm(4.75, TABLE),
  epoxy: ppm(55, TABLE),
} as const satisfies Record<string, ExpansionEntry>

export type SolidName = keyof typeof SOLIDS
export const SOLID_NAMES = Object.keys(SOLIDS) as readonly SolidName[]

/** Index change of optical solids with temperature near 1.55 um and 20 degC, 1/K; a gas is taken as constant. */
export const THERMO_OPTIC_PER_KELVIN = {
  air: 0,
  'fused silica': 0.9e-5, // about 0.86e-5 to 1.0e-5; D. B. Leviton and B. J. Frey, Proc. SPIE 6273 (2006), from memory
  silicon: 1.8e-4, // J. Komma et al., Appl. Phys. Lett. 101 (2012) 041905, from memory
  'silicon nitride': 2.5e-5, // A. Arbabi and L. L. Goddard, Opt. Lett. 38 (2013) 3878, from memory
  'borosilicate crown glass': 1.1e-6, // catalogue value of the glass 517642, from memory
  sapphire: 1.3e-5, // common handbook value, from memory
} as const
