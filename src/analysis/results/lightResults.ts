// The optical results of an evaluation: reflections, ripple, band, polarisation, power.

import type { Path } from '../../model/issue'

type FaceName = 'near' | 'far' | 'splice' | 'lens'

/** What one face sends back into the guides on either side of its join; null where nothing comes back or is counted. */
export interface FaceReflection {
  readonly elementId: string
  readonly face: FaceName
  readonly label: string
  /** Power that the face reflects, wherever it goes; 0..1. */
  readonly reflectance: number
  readonly intoNearDb: number | null
  readonly intoFarDb: number | null
  /** True where the figures are what the face returns at most, because its shape is not known. */
  readonly atMost?: boolean
  readonly note?: string
}

/** The two ends of an optical path. */
export const PATH_PORTS = ['fibre', 'chip'] as const
export type PathPort = (typeof PATH_PORTS)[number]

/** The same, seen from both ends of the path: everything on the way is passed there and back. */
export interface ChainReflection extends FaceReflection {
  readonly atFibreDb: number | null
  readonly atChipDb: number | null
}

/** What returns into one end of the path. Infinity never occurs: null where nothing reflects. */
export interface PortReturn {
  /** Powers of all faces added. */
  readonly incoherentDb: number | null
  /** All faces in phase, the least that can be. */
  readonly coherentDb: number | null
  /** True where the shape of a face is not known, so that the true return loss is at least this. */
  readonly atLeast: boolean
  /** Of the faces whose shape is known alone, powers added: the true return loss is at most this. */
  readonly atMostDb: number | null
}

/** Interference of the two faces of one gap. Decibels are measured from the loss of a single pass. */
export interface Ripple {
  readonly elementId: string
  readonly path: Path
  readonly peakToPeakDb: number
  /** Loss below that of a single pass at a ripple maximum, above it at a minimum; both 0 or more. */
  readonly crestGainDb: number
  readonly troughLossDb: number
  /** Signed change of the loss at the present gap. */
  readonly hereDb: number
  /** Periods past the nearest maximum, -0.5 to 0.5. */
  readonly fromCrest: number
  /** One period, as a change of gap, wavelength and temperature; null where that does not move it, as at contact. */
  readonly periodGapUm: number
  readonly periodWavelengthUm: number | null
  readonly periodTemperatureK: number | null
}

export interface BandFinding {
  readonly fromUm: number
  readonly toUm: number
  readonly worstDb: number
  readonly worstUm: number
  /** Least return loss at each end, powers added, and where; null where nothing reflects. */
  readonly leastReturn: Readonly<Record<PathPort, { readonly lossDb: number; readonly atUm: number } | null>>
  /** Greatest difference between TE and TM, dB. */
  readonly dependentLossDb: number
}

export interface PolarisationLoss {
  readonly teDb: number
  readonly tmDb: number
  /** Difference of the two, 0 or more: the axes of the chip are the extremes (as IEC 61300-3-2 measures). */
  readonly dependentLossDb: number
}

export interface PowerLocation {
  readonly elementId: string
  readonly label: string
  readonly powerUw: number
  /** 1/e^2 diameters of the light there. */
  readonly mfdXUm: number
  readonly mfdYUm: number
  /** On the axis, uW/um^2. */
  readonly irradiance: number
  /** Null where none has been set. */
  readonly limit: { readonly what: string; readonly irradiance: number } | null
}

export const POWER_SHARES = ['delivered', 'reflected', 'not coupled', 'lost in components'] as const
export type ShareName = (typeof POWER_SHARES)[number]

export interface PowerFinding {
  readonly inUw: number
  /** In the waveguide of the chip, or in the fibre. */
  readonly outUw: number
  readonly fromChip: boolean
  readonly locations: readonly PowerLocation[]
  /** Where the light goes, uW; they add up to `inUw`. */
  readonly shares: Readonly<Record<ShareName, number>>
}
