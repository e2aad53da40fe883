// Losses and what a budget adds up.

import type { Term } from './term'

export const LOSS_TERMS = {
  insertionLoss: {
    name: 'Insertion loss (IL)',
    definition: 'Loss of the whole optical path, from the fibre to the waveguide.',
    unit: 'dB',
    sign: 'Positive for a loss.',
    symbol: 'IL',
    formula: 'IL = −10 log₁₀(P_waveguide / P_fibre)',
  },
  couplingLoss: {
    name: 'Coupling loss',
    definition: 'Loss of one joint, from the overlap of the two modes that meet there.',
    unit: 'dB',
    sign: 'Positive for a loss.',
    formula: 'L = −10 log₁₀ η, η = |∫E₁E₂* dA|² / (∫|E₁|² dA ∫|E₂|² dA)',
  },
  jointLoss: {
    name: 'Joint loss',
    definition:
      'Loss of one joint: the coupling loss, the Fresnel losses of its faces, and any clipping or aberration there. A measured value can be entered instead.',
    unit: 'dB',
    sign: 'Positive for a loss.',
  },
  excessLoss: {
    name: 'Excess loss',
    definition:
      'Loss added by a misalignment or a tolerance, relative to the working point, to the nominal values or, on maps, to the minimum.',
    unit: 'dB',
    sign: 'Positive where the loss is higher than at the reference.',
    formula: 'ΔL = L − L_reference',
  },
  lossBudget: {
    name: 'Loss budget',
    definition:
      'Table of all losses from fibre to waveguide. Its lines add up to the insertion loss exactly.',
    unit: 'dB',
  },
  contribution: {
    name: 'Contribution',
    definition:
      'One line of the loss budget: a cause with the loss that it adds, and the source of its numbers.',
    unit: 'dB',
    sign: 'Positive for a loss. A correction may be negative.',
  },
  combinedContribution: {
    name: 'Combined',
    definition:
      'Effect of several misalignments together, beyond the sum of their individual losses. With it the lines add up to the exact joint loss.',
    unit: 'dB',
    sign: 'Negative where one misalignment partly compensates another.',
  },
  transmitted: {
    name: 'Transmitted power',
    definition: 'Share of the launched power that reaches a point of the path.',
    unit: '%',
    formula: 'T = 10^(−L / 10)',
  },
  nominal: {
    name: 'Nominal',
    definition: 'Result with every quantity at its nominal value and no tolerance applied.',
  },
  rss: {
    name: 'RSS (root sum square)',
    definition:
      'Nominal loss plus the quadrature sum of the excess losses, each found with one quantity at the worse end of its tolerance. Assumes independent causes.',
    unit: 'dB',
    formula: 'L = L_nominal + √(Σ ΔLᵢ²)',
  },
  worstCase: {
    name: 'Worst case',
    definition:
      'Loss with all tolerances at their limits at once, with the signs chosen by a search for the highest loss. Improbable, but possible. It is not an upper bound where tolerances are normal: some parts lie beyond their ±, so a percentile can exceed it.',
    unit: 'dB',
  },
  percentile: {
    name: 'Percentile (P50, P95, P99)',
    definition:
      'Insertion loss that the given share of simulated assemblies does not exceed: P95 is met by 95 %. Normal tolerances are sampled beyond their ±, and each assembly is evaluated at its worst temperature.',
    unit: 'dB',
  },
  yield: {
    name: 'Yield',
    definition: 'Share of simulated assemblies within the insertion-loss limit.',
    unit: '%',
  },
  lossLimit: {
    name: 'Insertion-loss limit',
    definition: 'Highest insertion loss from fibre to waveguide that the module may have.',
    unit: 'dB',
  },
  lossBasis: {
    name: 'Limit applies to',
    definition:
      'Which result must stay within the insertion-loss limit: nominal, RSS, worst case or a percentile of the yield run.',
  },
  modeMismatch: {
    name: 'Mode mismatch',
    definition: 'Overlap loss of two perfectly aligned Gaussian modes of different size or ellipticity.',
    unit: 'dB',
    formula: 'η = [2 w₁w₂ / (w₁² + w₂²)]² for round modes of radii w₁, w₂',
  },
  nonGaussian: {
    name: 'Non-Gaussian correction',
    definition: 'Coupling loss from the sampled fields minus that of their Gaussians, at the nominal values.',
    unit: 'dB',
    sign: 'Negative where the real modes couple better than their Gaussians.',
  },
  fresnelLoss: {
    name: 'Fresnel loss',
    definition: 'Loss of transmitted light by reflection at a face, where the refractive index changes.',
    unit: 'dB',
    formula: 'R = [(n₁ − n₂) / (n₁ + n₂)]² at normal incidence',
  },
  spliceLoss: {
    name: 'Splice loss',
    definition:
      'Loss of a fusion splice: an entered value where the cores are thermally diffused, or the mode mismatch of an abrupt splice.',
    unit: 'dB',
  },
  taperLoss: {
    name: 'Taper loss',
    definition: 'Loss of the on-chip taper between the facet and the routing waveguide.',
    unit: 'dB',
  },
  propagationLoss: {
    name: 'Propagation loss',
    definition: 'Loss of a waveguide per unit length.',
    unit: 'dB/cm',
  },
  substrateLeakage: {
    name: 'Substrate leakage',
    definition:
      'Loss of light that tunnels from the mode into a higher-index substrate below the lower cladding.',
    unit: 'dB or dB/mm',
  },
  clipping: {
    name: 'Clipping',
    definition: 'Loss of the part of a beam that an aperture blocks.',
    unit: 'dB',
  },
  additionalLoss: {
    name: 'Additional loss',
    definition: 'A loss entered by the user, such as a connector or an on-chip component.',
    unit: 'dB',
  },
} as const satisfies Readonly<Record<string, Term>>
