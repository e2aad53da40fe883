// The cross-section of a waveguide and its solved mode.

import type { Term } from './term'

export const CROSS_SECTION_TERMS = {
  crossSection: {
    name: 'Waveguide cross-section',
    definition:
      'Substrate, layers, cores and top cladding at the facet, from which the mode is solved. Heights are measured from the substrate surface.',
  },
  substrate: {
    name: 'Substrate',
    definition: 'Wafer below all layers. If its index is above the effective index, the mode leaks into it.',
  },
  lowerCladding: {
    name: 'Lower cladding',
    definition: 'Layer between the substrate and the cores.',
    unit: 'µm',
  },
  topCladding: {
    name: 'Top cladding',
    definition: 'Medium above the highest layer, such as air or an adhesive.',
  },
  coreWidth: {
    name: 'Core width',
    definition: 'Width of a core at half its height.',
    unit: 'µm',
  },
  sidewallAngle: {
    name: 'Sidewall angle',
    definition:
      'Angle between the side of a core and the substrate plane: 90° is vertical; below 90° the core is narrower at the top.',
    unit: '°',
  },
  indexProfile: {
    name: 'Index profile',
    definition:
      'Variation of the index across a core: uniform within walls, diffused in glass with a Gaussian or erfc depth profile, by profile tables of width and depth, or by an imported index map.',
    formula: 'n = n_host + (n_peak − n_host) exp(−(2x/width)²) f(depth)',
  },
  diffusionDepth: {
    name: 'Diffusion depth',
    definition:
      'Depth below the surface at which a diffused index step has fallen to 1/e (Gaussian) or to erfc(1) = 0.157 (erfc) of its peak. The surface is the upper edge of the core.',
    unit: 'µm',
  },
  indexStepWidth: {
    name: 'Index-step width',
    definition: 'Full width between the points at which a diffused index step has fallen to 1/e of its peak.',
    unit: 'µm',
  },
  coreCentre: {
    name: 'Core centre, x',
    definition: 'Position of the centre of a core along the chip surface.',
    unit: 'µm',
    sign: 'From the centre of the waveguide, towards +x.',
  },
  coreBottom: {
    name: 'Core bottom above substrate',
    definition: 'Height of the lower face of a core above the substrate surface.',
    unit: 'µm',
  },
  solverGrid: {
    name: 'Grid',
    definition:
      'Number of cells on which the mode is solved. A finer grid takes longer and has a smaller error.',
  },
  indexAboveCutoff: {
    name: 'Index above cut-off',
    definition:
      'Effective index minus the highest index of the surroundings. Near zero, the mode size is very sensitive to dimensions and indices.',
  },
  confinement: {
    name: 'Confinement in the cores',
    definition: 'Share of the mode power inside the cores.',
    unit: '%',
  },
  dominantComponent: {
    name: 'Dominant field component',
    definition:
      'Share of the mode power in its main transverse electric component, which couples to a fibre mode.',
    unit: '%',
  },
  discretisationError: {
    name: 'Estimated discretisation error',
    definition: 'Estimated error of a result from the finite size of the grid cells.',
  },
  gridConvergence: {
    name: 'Grid convergence',
    definition: 'A result computed on successively finer grids, which should converge.',
    unit: 'µm',
  },
  fieldOverlap: {
    name: 'Coupling loss, field overlap',
    definition: 'Coupling loss of the solved field to the fibre mode, without assuming Gaussians.',
    unit: 'dB',
  },
  sweep: {
    name: 'Sweep',
    definition: 'The mode solved at several values of one dimension or of the wavelength.',
  },
} as const satisfies Readonly<Record<string, Term>>
