// Tolerances of numbers, their sources, and simulated assemblies.

import type { Term } from './term'

export const TOLERANCE_TERMS = {
  tolerance: {
    name: 'Tolerance (±)',
    definition: 'Half width of the range in which the real value is expected, in the unit of the value.',
    sign: 'Half width, never negative.',
  },
  distribution: {
    name: 'Distribution',
    definition:
      'How real values are distributed about the nominal one: normal, truncated normal, uniform, triangular, one-sided or fixed. Fixed means exact.',
  },
  coverage: {
    name: '± equals (number of σ)',
    definition:
      'How many standard deviations the entered ± equals, for normal distributions. The default is 2.',
  },
  direction: {
    name: 'Direction',
    definition: 'For a one-sided tolerance: whether real values are above or below the entered one.',
  },
  sharedBy: {
    name: 'Varies per part or per channel',
    definition:
      'Whether all channels of one part share the same deviation, or every channel has a deviation of its own.',
  },
  source: {
    name: 'Source',
    definition: 'Where a number comes from: data sheet, measured, computed or estimate.',
  },
  entered: {
    name: 'Entered value',
    definition: 'A number that replaces a calculation, such as a measured splice loss.',
  },
  sample: {
    name: 'Sample',
    definition:
      'One simulated assembly: every toleranced quantity takes a random value from its distribution.',
  },
  seed: {
    name: 'Seed',
    definition: 'Number that fixes the random sequence. The same seed gives the same result.',
  },
  sobol: {
    name: 'Sobol sequence',
    definition: 'Evenly spread quasi-random points. A run needs fewer of them than of pseudo-random ones.',
  },
  varianceShare: {
    name: 'Variance share, main and total',
    definition:
      'Part of the variance of the loss that one tolerance causes alone (main), and with all its interactions (total).',
    unit: '%',
    formula: 'S_main = Var[E(L|xᵢ)] / Var(L), S_total = 1 − Var[E(L|all but xᵢ)] / Var(L)',
  },
  allocation: {
    name: 'Tolerance allocation',
    definition: 'Distribution of tolerances over all quantities so that together they meet the loss limit.',
  },
  maximumAlone: {
    name: 'Maximum ± (alone)',
    definition: 'Widest tolerance of one quantity that meets the limit with all others exact.',
  },
  allocated: {
    name: 'Allocated ±',
    definition:
      'Tolerance of a quantity when the loss limit is allocated to all quantities according to their difficulty.',
  },
  difficulty: {
    name: 'Difficulty',
    definition: 'How hard a tolerance is to hold. A difficult one receives a larger share of the limit.',
  },
  costWeight: {
    name: 'Cost weight',
    definition: 'Relative cost of holding a tolerance more tightly, in the allocation for a target yield.',
  },
  acceptableRange: {
    name: 'Acceptable range',
    definition: 'Range of a part dimension, around its optimum, in which the nominal loss meets the limit.',
  },
} as const satisfies Readonly<Record<string, Term>>
