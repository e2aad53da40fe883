// Fibre arrays and channels.

import type { Term } from './term'

export const ARRAY_TERMS = {
  channel: {
    name: 'Channel',
    definition: 'One fibre, one path and one waveguide of the module.',
  },
  channelPitch: {
    name: 'Channel pitch',
    definition: 'Centre-to-centre distance of neighbouring channels.',
    unit: 'µm',
    symbol: 'p',
  },
  fibreArray: {
    name: 'Fibre array',
    definition: 'Block that holds one fibre for each channel at a fixed pitch.',
  },
  corePositionError: {
    name: 'Core position error',
    definition: 'Deviation of a core of the fibre array from its nominal position.',
    unit: 'µm',
    sign: 'Towards +x or +y.',
  },
  bow: {
    name: 'Bow',
    definition: 'Height of the outer channels of an array above the middle ones.',
    unit: 'µm',
    sign: 'Positive where the outer channels are higher (+y).',
  },
  alignmentStrategy: {
    name: 'Alignment strategy',
    definition:
      'Signal that the alignment of the array maximises: total power, the worst channel, or the outer two channels.',
  },
  allChannelYield: {
    name: 'All-channel yield',
    definition: 'Share of simulated modules in which every channel is within the limit.',
    unit: '%',
  },
} as const satisfies Readonly<Record<string, Term>>
