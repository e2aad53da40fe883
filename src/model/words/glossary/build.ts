// Whether parts fit together, and how they are assembled.

import type { Term } from './term'

export const BUILD_TERMS = {
  captureRange: {
    name: 'Capture range',
    definition:
      'Displacement along one axis from the working point at which the power falls to the detector floor. Within it, light is detected.',
    formula: 'for matched Gaussian modes x = w √(L / 4.343), L the power margin in dB',
  },
  reserve: {
    name: 'Power margin',
    definition: 'Launch power less insertion loss and detector floor.',
    unit: 'dB',
  },
  clearance: {
    name: 'Clearance',
    definition: 'Distance between the fibre side and the chip before they touch, along the optical axis.',
    unit: 'µm',
  },
  smallestGap: {
    name: 'Smallest reachable gap',
    definition:
      'Gap between the centres of both end faces at which the first part of the fibre side touches the chip. Smaller gaps are computed at contact.',
    unit: 'µm',
  },
  keepOut: {
    name: 'Keep-out',
    definition:
      'Region from the facet to contact that the centre of the end face cannot enter. Shaded in the drawing.',
  },
  facetRecess: {
    name: 'Facet recess behind dicing edge',
    definition:
      'Length of chip that the saw cut leaves in front of an etched facet. Its surface is the ledge.',
    unit: 'µm',
    sign: 'From the facet towards the fibre.',
  },
  ledge: {
    name: 'Ledge below waveguide',
    definition: 'Depth of the surface in front of the facet, from the axis of the waveguide.',
    unit: 'µm',
  },
  trench: {
    name: 'Trench',
    definition:
      'Deeper etch between facet and ledge, given by its length and its depth below the waveguide. A trench as long as the recess leaves no ledge.',
    unit: 'µm',
  },
  lid: {
    name: 'Lid',
    definition:
      'Part above the chip surface, given by its height and by how far behind the facet it begins (negative: in front of the facet).',
    unit: 'µm',
  },
  outline: {
    name: 'Outline',
    definition:
      'Shape of the fibre side at the chip: bare cladding, tapered tip, or a glass block with a lid.',
  },
  coneHalfAngle: {
    name: 'Cone half-angle',
    definition: 'Angle between the axis and the side of a tapered tip.',
    unit: '°',
  },
  lidOverhang: {
    name: 'Lid overhang',
    definition: 'How far the lid of a glass block reaches beyond the end face.',
    unit: 'µm',
    sign: 'Positive towards the chip.',
  },
  vGroove: {
    name: 'V-groove',
    definition: 'Etched groove that locates a bare fibre by its cladding.',
    formula: 'h = r / cos α − (W / 2) tan α; in (100) silicon α = 54.74° and h = r√3 − W / √2',
  },
  concentricity: {
    name: 'Core-cladding concentricity error',
    definition: 'Distance between the centres of core and cladding of a fibre.',
    unit: 'µm',
  },
  fillet: {
    name: 'Fillet',
    definition: 'Adhesive in the corner between the fibre side and the chip surface.',
    unit: 'pL',
  },
  assemblySequence: {
    name: 'Assembly sequence',
    definition:
      'Steps by which a design is assembled. The yield is simulated step by step: each assembly continues until a step destroys or rejects it.',
  },
  spoiled: {
    name: 'Handling scrap',
    definition: 'Share of the assemblies that a step itself destroys, by handling or by its process.',
    unit: '%',
  },
  scrapCost: {
    name: 'Scrap cost',
    definition: 'Value of an assembly that fails at a step, in addition to the time spent on it until then.',
  },
  costPerGoodPart: {
    name: 'Cost per good part',
    definition:
      'Cost of station time and scrap for all assemblies that are started, divided by the number that pass every step within the loss limit.',
  },
  driftOverService: {
    name: 'Drift over service life',
    definition:
      'Rise of the loss from the start to the end of service life, from a stress test and a stated law. Its ± is the 95 % interval of one further channel.',
    unit: 'dB',
    sign: 'Positive for rising loss; a falling loss is not credited in the budget.',
  },
  stressTest: {
    name: 'Stress test',
    definition:
      'Losses of assemblies measured repeatedly, after hours at a temperature or after temperature cycles.',
  },
  driftLaw: {
    name: 'Drift law',
    definition:
      'Assumed course of the drift beyond the last reading: in proportion to time, to its square root (diffusion), or to its logarithm (relaxation).',
    formula: 'g = t, √t, log₁₀(1 + t / t₁)',
  },
  accelerationFactor: {
    name: 'Acceleration factor',
    definition:
      'Rate of drift in the test over that in service: Arrhenius for hours, Coffin-Manson for cycles.',
    formula: 'A = exp[(Eₐ / k)(1 / T_service − 1 / T_test)]; A = (ΔT_test / ΔT_service)ⁿ',
  },
  activationEnergy: {
    name: 'Activation energy',
    definition: 'Energy in the Arrhenius law of the mechanism that causes the drift.',
    unit: 'eV',
  },
} as const satisfies Readonly<Record<string, Term>>
