// Converters in front of the facet, each with the part that fits the facet's mode best: a spliced stub, a lensed tip, an
// external spot-size converter chip.

import { CATALOGUE } from '../../model/catalogue/catalogue'
import { BRIDGE_LEAST_NA, CATALOGUE_FIBRES } from '../../model/catalogue/fibres'
import {
  newDrift,
  newGapElement,
  newSpliceElement,
  newStubElement,
  newTaperChipElement,
} from '../../model/designs/newElements'
import { lossDbText } from '../../model/quantity/lossText'
import { coreValue, type Quantity } from '../../model/quantity/quantity'
import type { ConverterEntry, FibreEntry, LensedTipEntry, TaperChipEntry } from '../../model/schema/parts'
import { nmOf, plainText } from '../../numerics/numberText'
import { facetElement, fibreElement, joined } from './draftParts'
import { type Attempt, mediumBetween, type Site } from './ground'
import {
  bandText,
  bestOffer,
  carriesOneMode,
  fibreSize,
  inCatalogueBand,
  type ModeSize,
  meanUm,
  mismatchDb,
  sizeOf,
  sizeText,
} from './matching'

/** A converter has to gain at least this much over the plain fibre to be worth its splice or part, dB. */
const WORTH_DB = 0.2

function noGain(site: Site, what: string, size: ModeSize, lossDb: number): string {
  return `The facet mode of ${sizeText(site.facetMode)} is already close to the fibre's ${sizeText(site.fibreMode)} (${lossDbText(site.plainDb)}); ${what} of ${sizeText(size)} would leave ${lossDbText(lossDb)}.`
}

function isBridge({ mode }: FibreEntry): boolean {
  return mode.kind === 'core' && coreValue(mode.na, 'na') >= BRIDGE_LEAST_NA
}

export function highNaStub(site: Site): Attempt {
  const { own, fibre, facet, facetMode, plainDb, wavelengthUm } = site
  const suits = (each: FibreEntry) =>
    each.id !== fibre.id &&
    carriesOneMode(each, wavelengthUm) &&
    (!fibre.polarisationMaintaining || each.polarisationMaintaining)
  const sized = (each: FibreEntry) => fibreSize(each, wavelengthUm)
  const offer = bestOffer(
    own.fibres.filter(suits),
    CATALOGUE_FIBRES.filter((each) => suits(each) && isBridge(each)),
    (each) => {
      const size = sized(each)
      return size === null ? null : mismatchDb(size, facetMode)
    },
  )
  const size = offer && sized(offer.part)
  if (offer === undefined || size == null) {
    const kept = fibre.polarisationMaintaining ? ' that is polarisation-maintaining' : ''
    const nm = nmOf(wavelengthUm)
    return {
      reason: `No high-NA fibre${kept} in the catalogue is single-mode at ${nm} nm.`,
    }
  }
  if (plainDb - offer.lossDb < WORTH_DB) return { reason: noGain(site, 'a stub', size, offer.lossDb) }
  const { medium, parts } = mediumBetween(site, 'adhesive', offer.part, facet)
  return {
    chain: [
      fibreElement(site),
      newSpliceElement('splice'),
      newStubElement('stub', offer.part.id),
      newGapElement('gap', medium.id),
      facetElement(facet.id),
    ],
    parts: joined(parts, offer.own ? {} : { fibres: [offer.part] }),
    choice: `Stub mode ${sizeText(size)}, facet mode ${sizeText(facetMode)}: mode mismatch ${lossDbText(offer.lossDb)}; the splice loss is an estimate.`,
  }
}

const isTip = (each: ConverterEntry): each is LensedTipEntry => each.kind === 'lensed tip'
const isChip = (each: ConverterEntry): each is TaperChipEntry => each.kind === 'taper chip'

/** The spot of a tip that is defined by it; a ground radius has none until it is computed. */
function spotSize({ tip }: LensedTipEntry): ModeSize | null {
  return tip.kind === 'spot' ? sizeOf(tip.spotX, tip.spotY) : null
}

export function lensedFibre(site: Site): Attempt {
  const { own, facet, facetMode, plainDb, fibre } = site
  const offer = bestOffer(own.converters.filter(isTip), CATALOGUE.converters.filter(isTip), (each) => {
    const size = spotSize(each)
    return size === null ? null : mismatchDb(size, facetMode)
  })
  const size = offer && spotSize(offer.part)
  if (offer === undefined || size == null)
    return { reason: 'The catalogue has no lensed fibre defined by its spot size.' }
  if (plainDb - offer.lossDb < WORTH_DB) return { reason: noGain(site, 'a spot', size, offer.lossDb) }
  const { medium, parts } = mediumBetween(site, 'gas', fibre, facet)
  return {
    chain: [
      fibreElement(site, offer.part.id),
      { ...newGapElement('gap', medium.id), pinned: [], bondShift: newDrift() },
      facetElement(facet.id),
    ],
    parts: joined(parts, offer.own ? {} : { converters: [offer.part] }),
    choice: `Spot ${sizeText(size)}, facet mode ${sizeText(facetMode)}: mode mismatch ${lossDbText(offer.lossDb)}; the gap stays dry.`,
  }
}

const pitchUm = (quantity: Quantity) => coreValue(quantity, 'pitch')
/** Pitches nearer to each other than this are the same, um. */
const SAME_PITCH_UM = 0.05

/** The chip as it is ordered for this row: its own pitch at the input where it fans in, the row's at the output. */
function orderedFor(chip: TaperChipEntry, { channels, pitch }: Site['requirements']): TaperChipEntry {
  const wantedUm = pitchUm(pitch)
  if (channels < 2 || Math.abs(pitchUm(chip.outputPitch) - wantedUm) < SAME_PITCH_UM) return chip
  const stated = {
    value: pitch.value,
    unit: pitch.unit,
    provenance: 'estimate',
  } as const
  const input = wantedUm > pitchUm(chip.inputPitch) ? { ...chip.inputPitch, ...stated } : chip.inputPitch
  return {
    ...chip,
    id: `${chip.id}-to-order`,
    name: `${chip.name}, made to order at a pitch of ${plainText(wantedUm, 5)} µm`,
    inputPitch: input,
    outputPitch: { ...chip.outputPitch, ...stated },
  }
}

export function sscChip(site: Site): Attempt {
  const { own, requirements, facet, fibre, fibreMode, facetMode, plainDb, wavelengthUm } = site
  const listed = inCatalogueBand(wavelengthUm) ? CATALOGUE.converters.filter(isChip) : []
  const ends = (chip: TaperChipEntry) => ({
    input: sizeOf(chip.inputMfdX, chip.inputMfdY),
    output: sizeOf(chip.outputMfdX, chip.outputMfdY),
  })
  const lossDb = (chip: TaperChipEntry) => {
    const { input, output } = ends(chip)
    return (
      mismatchDb(fibreMode, input) + coreValue(chip.transmissionLoss, 'loss') + mismatchDb(output, facetMode)
    )
  }
  const fits = (chip: TaperChipEntry) =>
    requirements.channels < 2 ||
    Math.abs(pitchUm(chip.outputPitch) - pitchUm(requirements.pitch)) < SAME_PITCH_UM
  const fitting = listed.filter(fits)
  const offer = bestOffer(
    own.converters.filter(isChip).filter(fits),
    fitting.length > 0 ? fitting : listed.map((chip) => orderedFor(chip, requirements)),
    lossDb,
  )
  if (offer === undefined) {
    return {
      reason: `SSC chips in the catalogue are given for ${bandText()}.`,
    }
  }
  const { part: chip } = offer
  const { input, output } = ends(chip)
  if (plainDb - offer.lossDb < WORTH_DB || meanUm(input) <= meanUm(output)) {
    return {
      reason: noGain(site, 'an SSC chip with an output', output, offer.lossDb),
    }
  }
  const entry = mediumBetween(site, 'adhesive', fibre, chip)
  const exit = mediumBetween(site, 'adhesive', chip, facet)
  const same = exit.medium.id === entry.medium.id
  return {
    chain: [
      fibreElement(site),
      { ...newGapElement('gap-1', entry.medium.id), bondShift: newDrift() },
      newTaperChipElement('ssc-chip', chip.id),
      { ...newGapElement('gap-2', exit.medium.id), bondShift: newDrift() },
      facetElement(facet.id),
    ],
    parts: joined(entry.parts, same ? {} : exit.parts, offer.own ? {} : { converters: [chip] }),
    choice: `Chip from ${sizeText(input)} to ${sizeText(output)}: ${lossDbText(offer.lossDb)} for its insertion loss and the mode mismatch at both ends.`,
  }
}
