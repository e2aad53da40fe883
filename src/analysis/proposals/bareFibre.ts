// A plain fibre in front of the facet: dry, in gel, or bonded to an on-chip taper that widens the mode.

import { CATALOGUE } from '../../model/catalogue/catalogue'
import { newGapElement } from '../../model/designs/newElements'
import { lossDbText } from '../../model/quantity/lossText'
import { coreValue } from '../../model/quantity/quantity'
import type { FacetEntry } from '../../model/schema/parts'
import { plainText } from '../../numerics/numberText'
import { facetElement, fibreElement, joined } from './draftParts'
import { type Attempt, type Draft, mediumBetween, type Site } from './ground'
import { bandText, bestOffer, facetSize, inCatalogueBand, meanUm, mismatchDb, sizeText } from './matching'

/** A taper is treated as wider than the facet from this ratio of mean diameters. */
const WIDER = 1.15

export function bareFibre(site: Site, state: 'gas' | 'gel'): Draft {
  const { fibre, facet, fibreMode, facetMode, plainDb } = site
  const { medium, parts } = mediumBetween(site, state, fibre, facet)
  return {
    chain: [fibreElement(site), newGapElement('gap', medium.id), facetElement(facet.id)],
    parts,
    choice: `Fibre mode ${sizeText(fibreMode)}, facet mode ${sizeText(facetMode)}: mode mismatch ${lossDbText(plainDb)}.`,
  }
}

const lossesOf = ({ taperLoss, substrateLeakage }: FacetEntry): number =>
  coreValue(taperLoss, 'loss') + (substrateLeakage === undefined ? 0 : coreValue(substrateLeakage, 'loss'))

/** The width of the tip that shows the mode; nothing where the part does not state it. */
const tipText = ({ tipWidth }: FacetEntry): string =>
  tipWidth === undefined ? '' : ` by a tip ${plainText(coreValue(tipWidth, 'guideSize'), 3)} µm wide`

/** A taper whose tip shows a wider mode, so that the plain fibre itself fits better; its own losses are counted. */
export function onChipTaper(site: Site): Attempt {
  const { own, facet, fibre, facetMode, fibreMode, plainDb, wavelengthUm, widerIds } = site
  const listed = inCatalogueBand(wavelengthUm)
  const wider = (each: FacetEntry) =>
    each.id !== facet.id && meanUm(facetSize(each)) > WIDER * meanUm(facetMode)
  const offer = bestOffer(
    own.facets.filter((each) => wider(each) && each.tipWidth !== undefined),
    CATALOGUE.facets.filter((each) => listed && wider(each) && widerIds.includes(each.id)),
    (each) => mismatchDb(fibreMode, facetSize(each)) + lossesOf(each),
  )
  if (offer === undefined && !inCatalogueBand(wavelengthUm)) {
    return {
      reason: `Widened tapers in the catalogue are given for ${bandText()}.`,
    }
  }
  if (offer === undefined) {
    return {
      reason: `No taper of this platform in the catalogue has a mode wider than ${sizeText(facetMode)}.`,
    }
  }
  const plain = plainDb + lossesOf(facet)
  if (offer.lossDb >= plain) {
    return {
      reason: `The widest taper (${sizeText(facetSize(offer.part))}) gives ${lossDbText(offer.lossDb)}, its own losses included; the unmodified facet gives ${lossDbText(plain)}.`,
    }
  }
  const { medium, parts } = mediumBetween(site, 'adhesive', fibre, offer.part)
  return {
    chain: [fibreElement(site), newGapElement('gap', medium.id), facetElement(offer.part.id)],
    parts: joined(parts, offer.own ? {} : { facets: [offer.part] }),
    choice: `Facet mode widened to ${sizeText(facetSize(offer.part))}${tipText(offer.part)}: mismatch and taper ${lossDbText(offer.lossDb)} instead of ${lossDbText(plain)}. Requires a change to the chip.`,
  }
}
