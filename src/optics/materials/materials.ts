// Refractive index of the materials used in fibre-to-chip coupling, by chemical name, from published dispersion data.
// Coefficients were read in the refractiveindex.info database (CC0, commit ff11b5897ef0) except where a source says
// "from memory". Phase index against vacuum at the stated temperature; wavelengths in micrometres.

import { InputError } from '../../numerics/inputError'
import { nmOf } from '../../numerics/numberText'
import { type DispersionFormula, evaluateDispersion } from './dispersion'

export interface Material {
  readonly label: string
  readonly formula: DispersionFormula
  /** Vacuum wavelengths the source covers. */
  readonly rangeUm: readonly [number, number]
  readonly temperatureC: number
  readonly source: string
  /** dn/dT near the temperature above and 1.55 um. */
  readonly thermoOpticPerK: number
  readonly thermoOpticSource: string
}

function sellmeier(...terms: readonly (readonly [number, number])[]): DispersionFormula {
  return {
    form: 'sellmeier',
    constant: 1,
    terms: terms.map(([strength, resonanceUm]) => ({ strength, resonanceUm })),
  }
}

export const MATERIALS = {
  air: {
    label: 'Air, dry, 101.325 kPa, 450 ppm CO2',
    formula: {
      form: 'gas',
      terms: [
        { strengthPerUm2: 0.05792105, polePerUm2: 238.0185 },
        { strengthPerUm2: 0.00167917, polePerUm2: 57.362 },
      ],
    },
    // Fitted up to 1.69 um, extrapolated beyond: what is left of the dispersion there is 3e-7, and the refractivity of dry air in
    // microwaves (J. M. Rueger, FIG XXII (2002), 77.689 K/hPa, from memory), beyond all infrared bands, is within 6e-7 of it.
    rangeUm: [0.23, 2.5],
    temperatureC: 15,
    source: 'P. E. Ciddor, Appl. Opt. 35 (1996) 1566; extrapolated from 1.69 to 2.5 µm, good to 6e-7',
    thermoOpticPerK: -9.5e-7,
    thermoOpticSource: 'ideal gas at constant pressure: -(n - 1) / T',
  },
  'fused silica': {
    label: 'Fused silica, SiO2',
    formula: sellmeier([0.6961663, 0.0684043], [0.4079426, 0.1162414], [0.8974794, 9.896161]),
    rangeUm: [0.21, 3.71],
    temperatureC: 20,
    source: 'I. H. Malitson, J. Opt. Soc. Am. 55 (1965) 1205',
    thermoOpticPerK: 1e-5,
    thermoOpticSource: 'from memory',
  },
  silicon: {
    label: 'Silicon, crystalline',
    formula: { form: 'inverse-square', constant: 11.651685988, strengthUm2: 1.029991271 },
    rangeUm: [1.2, 14],
    temperatureC: 20,
    source:
      'H. H. Li, J. Phys. Chem. Ref. Data 9 (1980) 561, dispersion equation at 293 K (from memory; it gives the ' +
      'table entries read at 1.30, 1.32, 1.50, 1.55 and 1.60 µm to the last digit)',
    thermoOpticPerK: 1.8e-4,
    thermoOpticSource: 'from memory; the temperature derivative of the same equation gives 1.82e-4',
  },
  'silicon (Salzberg and Villa)': {
    label: 'Silicon, crystalline, second data set',
    formula: sellmeier([10.6684293, 0.301516485], [0.0030434748, 1.13475115], [1.54133408, 1104]),
    rangeUm: [1.357, 11.04],
    temperatureC: 26,
    source:
      'C. D. Salzberg and J. J. Villa, J. Opt. Soc. Am. 47 (1957) 244, fit by B. Tatian, Appl. Opt. 23 (1984) 4477',
    thermoOpticPerK: 1.8e-4,
    thermoOpticSource: 'from memory',
  },
  'silicon nitride': {
    label: 'Silicon nitride, Si3N4, low-pressure deposited',
    formula: sellmeier([3.0249, 0.1353406], [40314, 1239.842]),
    rangeUm: [0.31, 5.504],
    temperatureC: 20,
    source: 'K. Luke et al., Opt. Lett. 40 (2015) 4823',
    thermoOpticPerK: 2.5e-5,
    thermoOpticSource: 'from memory',
  },
  'borosilicate crown glass': {
    label: 'Borosilicate crown glass, code 517642',
    formula: sellmeier(
      [1.03961212, Math.sqrt(0.00600069867)],
      [0.231792344, Math.sqrt(0.0200179144)],
      [1.01046945, Math.sqrt(103.560653)],
    ),
    rangeUm: [0.3, 2.5],
    temperatureC: 20,
    source:
      'refractiveindex.info database (CC0): glass catalogue of 2017, Sellmeier coefficients of code 517642',
    thermoOpticPerK: 1e-6,
    thermoOpticSource: 'from memory',
  },
  sapphire: {
    label: 'Sapphire, Al2O3, ordinary ray',
    formula: sellmeier([1.4313493, 0.0726631], [0.65054713, 0.1193242], [5.3414021, 18.028251]),
    rangeUm: [0.2, 5],
    temperatureC: 20,
    source:
      'I. H. Malitson and M. J. Dodge (1972), in M. J. Dodge, Handbook of Laser Science and Technology (1986); ' +
      'wavelength range from memory',
    thermoOpticPerK: 1.3e-5,
    thermoOpticSource: 'from memory',
  },
} as const satisfies Readonly<Record<string, Material>>

export type MaterialName = keyof typeof MATERIALS

/** Other chemical names and formulas that refractiveIndex understands; upper and lower case are equivalent. */
export const MATERIAL_ALIASES: Readonly<Record<string, MaterialName>> = {
  sio2: 'fused silica',
  silica: 'fused silica',
  'silicon dioxide': 'fused silica',
  'fused quartz': 'fused silica',
  si: 'silicon',
  'crystalline silicon': 'silicon',
  si3n4: 'silicon nitride',
  sin: 'silicon nitride',
  'borosilicate crown': 'borosilicate crown glass',
  'borosilicate glass': 'borosilicate crown glass',
  al2o3: 'sapphire',
  'aluminium oxide': 'sapphire',
  'dry air': 'air',
}

const isMaterialName = (name: string): name is MaterialName => Object.hasOwn(MATERIALS, name)

/** The material with this name or alias. For any other, throws InputError, which lists the names. */
export function findMaterial(name: string): Material {
  if (isMaterialName(name)) return MATERIALS[name]
  const wanted = String(name).trim().toLowerCase()
  for (const [key, material] of Object.entries(MATERIALS)) {
    if (key.toLowerCase() === wanted) return material
  }
  for (const [alias, key] of Object.entries(MATERIAL_ALIASES)) {
    if (alias === wanted) return MATERIALS[key]
  }
  throw new InputError('material', name, `one of ${Object.keys(MATERIALS).join(', ')}`)
}

/** Phase index at a vacuum wavelength. Throws InputError for an unknown material or a wavelength outside its range. */
export function refractiveIndex(material: string, wavelengthUm: number): number {
  return lookUp(material, wavelengthUm).index
}

/** Group index n - lambda dn/d(lambda); errors as refractiveIndex. */
export function groupIndex(material: string, wavelengthUm: number): number {
  const { index, slopePerUm } = lookUp(material, wavelengthUm)
  return index - wavelengthUm * slopePerUm
}

function lookUp(name: string, wavelengthUm: number) {
  const material = findMaterial(name)
  const [leastUm, mostUm] = material.rangeUm
  if (!(wavelengthUm >= leastUm && wavelengthUm <= mostUm)) {
    throw new InputError(
      `wavelength for ${material.label}`,
      `${nmOf(wavelengthUm)} nm`,
      `${nmOf(leastUm)} to ${nmOf(mostUm)} nm`,
    )
  }
  return evaluateDispersion(material.formula, wavelengthUm)
}
