// The optical path, its elements and the families of designs.

import type { Term } from './term'

export const PATH_TERMS = {
  design: {
    name: 'Design',
    definition:
      'One complete interface from fibre to waveguide: its optical path with all parts, settings and tolerances.',
  },
  opticalPath: {
    name: 'Optical path',
    definition:
      'Everything the light passes through from fibre to waveguide. Its parts in order are called elements.',
  },
  joint: {
    name: 'Joint',
    definition:
      'One coupling plane: a gap, a splice or a lens relay. Gaps and relays are numbered from the fibre.',
  },
  endFaces: {
    name: 'Fibre-side and chip-side end face',
    definition: 'The two faces of a joint: the one that emits towards the chip, and the one that receives.',
  },
  gap: {
    name: 'Gap',
    definition: 'Distance from end face to end face, measured along z in the gap medium.',
    unit: 'µm',
    symbol: 'z',
    formula: 'η = 4 w₁²w₂² / [(w₁² + w₂²)² + (λz / πn)²] for round, aligned modes',
  },
  gapMedium: {
    name: 'Gap medium',
    definition: 'What fills the gap: a gas, an index-matching gel or an adhesive.',
  },
  indexMatchingGel: {
    name: 'Index-matching gel',
    definition:
      'Gap medium with the index of the fibre. It suppresses reflections and removes the focusing power of a lensed fibre.',
  },
  workingDistance: {
    name: 'Working distance',
    definition: 'Distance from a lens or a lensed fibre end to its focus. For a butt joint the term is gap.',
    unit: 'µm',
  },
  spotSize: {
    name: 'Spot size',
    definition: 'Mode-field diameter at the focus of a lens or of a lensed fibre.',
    unit: 'µm',
    symbol: '2w₀',
  },
  buttCoupled: {
    name: 'Butt-coupled fibre',
    definition: 'Family of designs: a cleaved or polished fibre directly at the facet.',
  },
  highNaStub: {
    name: 'High-NA stub',
    definition:
      'Family of designs: a short piece of fibre with a small mode, spliced to the standard fibre and coupled to the facet.',
  },
  lensedFibre: {
    name: 'Lensed fibre',
    definition: 'Family of designs: a fibre with a lens formed on its end, which focuses in air.',
  },
  sscChip: {
    name: 'Spot-size converter (SSC) chip',
    definition:
      'Chip with tapered waveguides, whose mode changes from the size of the fibre mode to that of the facet mode. Also called taper chip.',
  },
  twoLensRelay: {
    name: 'Two-lens relay',
    definition:
      'Family of designs: one lens collimates the fibre mode, and a second one focuses it on the facet.',
  },
  collimatedSection: {
    name: 'Collimated section',
    definition:
      'Section between two lenses where the beam is parallel and a component such as an isolator fits.',
    unit: 'mm',
  },
  magnification: {
    name: 'Magnification',
    definition: 'Ratio of the mode size at the chip to that at the fibre, through the lenses.',
    symbol: 'M',
    formula: 'M = f₂ / f₁',
  },
  workingPoint: {
    name: 'Working point',
    definition: 'The current offsets, gap and tilts, at which the design is evaluated.',
  },
  optimum: {
    name: 'Optimum',
    definition:
      'Values of gaps, lens distances, offsets and tilts with the lowest loss. Apply writes them to the design.',
  },
  pinned: {
    name: 'Pinned',
    definition: 'A value that the search for the optimum leaves unchanged.',
  },
} as const satisfies Readonly<Record<string, Term>>
