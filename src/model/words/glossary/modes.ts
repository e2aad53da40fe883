// Modes: their size, shape and refractive indices.

import type { Term } from './term'

export const MODE_TERMS = {
  mfd: {
    name: 'Mode-field diameter (MFD)',
    definition:
      'Full width of the mode at 1/e² of its peak intensity: that of the best-fit Gaussian, unless Petermann II is named.',
    unit: 'µm',
    symbol: '2w',
  },
  mfdXY: {
    name: 'MFD x, MFD y',
    definition: 'Mode-field diameter along the chip surface (x) and normal to it (y).',
    unit: 'µm',
    symbol: '2wₓ, 2w_y',
  },
  bestFitGaussian: {
    name: 'Best-fit Gaussian',
    definition: 'The Gaussian mode that overlaps a given mode best.',
    unit: 'µm',
  },
  gaussianOverlap: {
    name: 'Overlap with best-fit Gaussian',
    definition: 'Power overlap of a mode with its best-fit Gaussian. 100 % is a Gaussian mode.',
    unit: '%',
  },
  petermann1: {
    name: 'Petermann I',
    definition: 'Mode-field diameter from the second moment of the near-field intensity.',
    unit: 'µm',
    formula: 'd = 2√2 [∫r³E² dr / ∫rE² dr]^½',
  },
  petermann2: {
    name: 'Petermann II',
    definition:
      'Mode-field diameter from the second moment of the far field; the definition of fibre standards. It assumes circular symmetry.',
    unit: 'µm',
    formula: 'd = 2√2 [∫rE² dr / ∫r(dE/dr)² dr]^½',
  },
  secondMoment: {
    name: 'Second-moment width (D4σ)',
    definition: 'Four standard deviations of the intensity along an axis. Equal to the MFD for a Gaussian.',
    unit: 'µm',
    formula: 'D4σ = 4 [∫x²I dA / ∫I dA]^½',
  },
  cutWidth: {
    name: '1/e² width through the peak',
    definition: 'Full width at 1/e² of the peak intensity, along a line through the peak.',
    unit: 'µm',
  },
  modeDefinition: {
    name: 'Mode defined by',
    definition: 'Whether the mode follows from entered mode-field diameters or from the core geometry.',
  },
  modeShape: {
    name: 'Mode shape',
    definition:
      'How the mode is modelled: a Gaussian, the exact mode of a core, index profile or cross-section, or an imported field.',
  },
  coreDiameter: {
    name: 'Core diameter',
    definition: 'Diameter of the core of a step-index fibre.',
    unit: 'µm',
    symbol: '2a',
  },
  numericalAperture: {
    name: 'Numerical aperture (NA)',
    definition:
      'Sine of the acceptance half-angle of a step-index fibre, set by the indices of core and cladding.',
    symbol: 'NA',
    formula: 'NA = √(n_core² − n_cladding²)',
  },
  vNumber: {
    name: 'Normalised frequency (V)',
    definition: 'A step-index fibre carries one mode below V = 2.405.',
    symbol: 'V',
    formula: 'V = 2πa NA / λ',
  },
  claddingDiameter: {
    name: 'Cladding diameter',
    definition: 'Outer diameter of the glass of the fibre, without its coating.',
    unit: 'µm',
  },
  effectiveIndex: {
    name: 'Effective index',
    definition:
      'Propagation constant of a mode divided by that of a plane wave in vacuum. It determines the reflection at the face.',
    symbol: 'n_eff',
    formula: 'n_eff = βλ / 2π',
  },
  refractiveIndex: {
    name: 'Refractive index',
    definition: 'Phase index of a material, from its published dispersion formula or an entered value.',
    symbol: 'n',
  },
  dnDt: {
    name: 'Thermo-optic coefficient, dn/dT',
    definition: 'Change of refractive index per kelvin.',
    unit: '1/K',
    sign: 'Negative for most adhesives and gels.',
  },
  mfdOverWavelength: {
    name: 'MFD vs wavelength',
    definition:
      'How the mode-field diameter changes over the band: constant, a power law, or tabulated values.',
    formula: 'MFD(λ) = MFD(λ₀) (λ/λ₀)^p for the power law',
  },
  teTm: {
    name: 'TE and TM',
    definition: 'Modes with the electric field along the chip surface, x (TE), and normal to it, y (TM).',
  },
  wavelength: {
    name: 'Wavelength',
    definition: 'Vacuum wavelength at which the design is evaluated.',
    unit: 'nm',
    symbol: 'λ',
  },
  rayleighRange: {
    name: 'Rayleigh range',
    definition: 'Distance from the waist at which a beam has √2 times its waist radius.',
    unit: 'µm',
    symbol: 'z_R',
    formula: 'z_R = πn w₀² / λ',
  },
  divergence: {
    name: 'Divergence half-angle',
    definition:
      'Far-field angle of the 1/e² intensity. Above about 0.3 rad the paraxial results carry a warning.',
    unit: 'rad or °',
    formula: 'θ = arctan(λ / πn w₀)',
  },
} as const satisfies Readonly<Record<string, Term>>
