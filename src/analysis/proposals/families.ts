// The families of designs that bring light from a fibre to a facet, and how each is drafted for a site.

import { coreValue } from '../../model/quantity/quantity'
import { rounded } from '../../numerics/numberText'
import { bareFibre, onChipTaper } from './bareFibre'
import { highNaStub, lensedFibre, sscChip } from './converters'
import type { Attempt, Site } from './ground'
import { twoLensRelay } from './relayDraft'

export const FAMILY_IDS = ['cleaved-dry', 'cleaved-gel', 'stub', 'lensed', 'relay', 'ssc', 'on-chip'] as const
export type FamilyId = (typeof FAMILY_IDS)[number]

export interface Family {
  readonly id: FamilyId
  readonly label: string
  readonly goodFor: string
  readonly draft: (site: Site) => Attempt
}

/** Fibres side by side need a pitch of at least their cladding; null where they have it. */
function crowded({ requirements, fibre }: Site): { readonly reason: string } | null {
  const pitchUm = coreValue(requirements.pitch, 'pitch')
  const claddingUm = coreValue(fibre.claddingDiameter, 'claddingDiameter')
  if (requirements.channels < 2 || pitchUm >= claddingUm) return null
  const [cladding, pitch] = [rounded(claddingUm, 4), rounded(pitchUm, 4)]
  return {
    reason: `Fibres of ${cladding} µm cladding do not fit side by side at a pitch of ${pitch} µm; an SSC chip can change the pitch.`,
  }
}

const fibrePerChannel =
  (draft: Family['draft']): Family['draft'] =>
  (site) =>
    crowded(site) ?? draft(site)

export const FAMILIES: readonly Family[] = [
  {
    id: 'cleaved-dry',
    label: 'Cleaved fibre, dry',
    goodFor: 'Baseline and quick tests: fewest parts, removable. Highest loss if the modes differ.',
    draft: fibrePerChannel((site) => bareFibre(site, 'gas')),
  },
  {
    id: 'cleaved-gel',
    label: 'Cleaved fibre, index-matching gel',
    goodFor: 'Test benches: little back-reflection without bonding. The mode mismatch remains.',
    draft: fibrePerChannel((site) => bareFibre(site, 'gel')),
  },
  {
    id: 'stub',
    label: 'High-NA stub, bonded',
    goodFor: 'Permanent joints at low loss: the mode is matched in glass, one splice and one bond.',
    draft: fibrePerChannel(highNaStub),
  },
  {
    id: 'lensed',
    label: 'Lensed fibre',
    goodFor: 'Probing and few channels: a small spot at a free working distance, no adhesive in the beam.',
    draft: fibrePerChannel(lensedFibre),
  },
  {
    id: 'relay',
    label: 'Two-lens relay',
    goodFor: 'An isolator or filter in a collimated section, any magnification. Most parts and steps.',
    draft: twoLensRelay,
  },
  {
    id: 'ssc',
    label: 'SSC chip',
    goodFor:
      'Many channels: one spot-size converter (SSC) chip matches the whole row and can change the pitch.',
    draft: sscChip,
  },
  {
    id: 'on-chip',
    label: 'On-chip taper',
    goodFor: 'High volume and wide tolerances: the chip itself presents a wider mode to a standard fibre.',
    draft: fibrePerChannel(onChipTaper),
  },
]
