// As a schema: what the interface must do, as it is agreed before any part is chosen.

import { z } from 'zod'
import { LIMITS } from '../words/limits'
import { CHANNEL_SCOPES, LIGHT_DIRECTIONS, LOSS_BASES } from '../words/requirements'
import { open } from './openObject'
import { quantity } from './quantity'

const id = z.string().min(1).max(80)

/** A limit on the insertion loss, and the figure that must stay within it. */
const lossCriterionSchema = open({
  /** Also the id of its verdict. */
  id,
  limit: quantity('loss'),
  basis: z.enum(LOSS_BASES),
  /** Share of the assemblies, %; read for a percentile only. */
  percentile: z.number().min(50).max(99.99),
  /** 'all' asks it of every channel of an assembly at once; read for a percentile of several channels only. */
  channels: z.enum(CHANNEL_SCOPES),
})
export type LossCriterion = z.infer<typeof lossCriterionSchema>

/** A component that the design must hold in its collimated section. */
const wantedIsolatorSchema = open({
  length: quantity('stretch'),
  /** Clear aperture, diameter. */
  aperture: quantity('aperture'),
  /** Absent where no figure is requested. */
  isolation: quantity('returnLoss').optional(),
})
export type WantedIsolator = z.infer<typeof wantedIsolatorSchema>

export const requirementsSchema = open({
  /** Which way the light of the application goes; power, isolators and polarisation follow it. */
  direction: z.enum(LIGHT_DIRECTIONS),
  wavelength: quantity('wavelength'),
  /** Edges of the band; absent where only one wavelength matters. */
  wavelengthMin: quantity('wavelength').optional(),
  wavelengthMax: quantity('wavelength').optional(),
  channels: z.int().min(1).max(64),
  pitch: quantity('pitch'),
  /** The first percentile among them, else the first, is the limit that yields and curves are drawn against. */
  losses: z.array(lossCriterionSchema).min(1).max(LIMITS.lossCriteria),
  /** Of light that goes back into the fibre, and of light that goes back into the waveguide of the chip. */
  returnLossFibre: quantity('returnLoss').optional(),
  returnLossChip: quantity('returnLoss').optional(),
  polarisation: z.enum(['any', 'maintained']),
  /** Left at the chip's facet; looked at where polarisation is maintained. */
  extinctionRatio: quantity('extinctionRatio').optional(),
  polarisationDependentLoss: quantity('loss').optional(),
  isolator: wantedIsolatorSchema.optional(),
  /** Launched in each channel, into the fibre or out of the chip's waveguide as the light goes; absent where power is not looked at. */
  powerIn: quantity('power').optional(),
  /** The irradiance limit that the engineer sets for a coating or a bare end face. */
  faceIrradiance: quantity('irradiance').optional(),
  temperatureMin: quantity('temperature'),
  temperatureMax: quantity('temperature'),
  collimatedSection: z.boolean(),
  bonding: z.enum(['free choice', 'bonded', 'not bonded']),
  /** In the engineer's own currency, a channel; absent where cost does not decide. */
  costCeiling: z.number().nonnegative().max(1e9).optional(),
  /** Default tolerance of every set axis: placed by marks and stops, unless `active` says what power alignment leaves. */
  station: open({
    lateral: quantity('lateralAccuracy'),
    axial: quantity('lateralAccuracy'),
    angular: quantity('angularAccuracy'),
    /** Absent where roll is held as the other angles are, or as a typical array holds it. */
    roll: quantity('angularAccuracy').optional(),
    /** What an alignment on power leaves, by kind of axis; absent where it is as good as placing. */
    active: open({
      lateral: quantity('lateralAccuracy').optional(),
      axial: quantity('lateralAccuracy').optional(),
      angular: quantity('angularAccuracy').optional(),
      roll: quantity('angularAccuracy').optional(),
    }).optional(),
  }),
  /** Ids of requirements that are wishes; all others are musts. */
  wishes: z.array(id).max(LIMITS.requirementIds).optional(),
  /** Groups of requirement ids of which one suffices. */
  eitherOr: z.array(z.array(id).min(2).max(LIMITS.requirementIds)).max(LIMITS.requirementIds).optional(),
})
export type Requirements = z.infer<typeof requirementsSchema>
