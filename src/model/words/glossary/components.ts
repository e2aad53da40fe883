// Lenses, lensed fibres and the chip facet.

import type { Term } from './term'

export const COMPONENT_TERMS = {
  facet: {
    name: 'Facet',
    definition: 'End face of a waveguide at the edge of the chip, where the light enters or leaves.',
  },
  waveguideSize: {
    name: 'Waveguide width and height',
    definition: 'Size of the waveguide core at the facet, for the drawing. The mode has its own diameters.',
    unit: 'µm',
  },
  facetDepth: {
    name: 'Depth below the surface',
    definition: 'Distance of the waveguide centre below the top surface of the chip.',
    unit: 'µm',
  },
  tipWidth: {
    name: 'Taper tip width',
    definition: 'Width of an inverse taper at the facet. A narrower tip has a larger mode.',
    unit: 'µm',
  },
  routingWidth: {
    name: 'Routing width',
    definition: 'Width of the waveguide behind the taper.',
    unit: 'µm',
  },
  taperLength: {
    name: 'Taper length',
    definition: 'Length from the tip to the full routing width.',
    unit: 'µm',
  },
  taperProfile: {
    name: 'Taper profile',
    definition:
      'How the width increases from the tip: linearly, or with the square of the distance, which is more gradual at the tip, where the mode changes most.',
  },
  taperTransmission: {
    name: 'Taper loss from local modes',
    definition:
      'Power that the taper scatters while its mode changes from the routing waveguide to the tip, estimated from the solved modes along it. Substrate leakage, roughness and bends are not included.',
    unit: 'dB',
  },
  inverseTaper: {
    name: 'Inverse taper',
    definition: 'On-chip waveguide that narrows towards the facet, so that its mode grows to match a fibre.',
  },
  tipRadius: {
    name: 'Tip radius',
    definition: 'Radius of curvature of the lens on the end of a fibre.',
    unit: 'µm',
  },
  lensShape: {
    name: 'Lens shape',
    definition:
      'Thin, ball, plano-convex, biconvex or gradient-index. The curved face of a plano-convex lens is on the collimated side.',
  },
  focalLength: {
    name: 'Focal length',
    definition: 'Distance from a thin lens to the focus of a collimated beam, at the design wavelength.',
    unit: 'µm',
    symbol: 'f',
  },
  curvatureRadius: {
    name: 'Radius of curvature',
    definition:
      'Radius of a lens surface at its vertex: on the collimated side, where the beam is parallel, or on the focused side.',
    unit: 'µm',
    sign: 'Positive for a convex surface.',
    symbol: 'R',
  },
  rodPitch: {
    name: 'Pitch of a gradient-index rod',
    definition:
      'Length of the rod in periods of the ray path: 0.25 collimates the light from a point on its face.',
  },
  clearAperture: {
    name: 'Clear aperture',
    definition: 'Diameter of the usable area of a lens. Light beyond it is lost.',
    unit: 'µm',
  },
  arrayPitch: {
    name: 'Array pitch',
    definition: 'Centre-to-centre distance of the lenses of an array.',
    unit: 'µm',
  },
  pitchPorts: {
    name: 'Input and output pitch',
    definition: 'Channel pitch of a spot-size converter chip on the fibre side and on the chip side.',
    unit: 'µm',
  },
  holder: {
    name: 'Holder',
    definition: 'Fixture that holds the part in the module, entered as a note for the order list.',
  },
  aberration: {
    name: 'Spherical aberration',
    definition:
      'Phase error of spherical surfaces. It grows with the slope of the surface and enlarges the spot.',
  },
} as const satisfies Readonly<Record<string, Term>>
