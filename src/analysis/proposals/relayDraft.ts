// A two-lens relay with the pair of lenses that suits: single lenses for one channel, lens arrays for a row.

import { newRelayElement, requiredIsolator } from '../../model/designs/newElements'
import { emptyProject } from '../../model/project/emptyProject'
import { coreValue, quantityOf } from '../../model/quantity/quantity'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { fixedText, plainText } from '../../numerics/numberText'
import { compileCandidate } from '../path/compileCandidate'
import { staysParallel } from '../path/faces/parallelBeam'
import { STRETCHES_MM, withFittingLenses } from '../tolerance/relayLenses'
import { facetElement, fibreElement, joined } from './draftParts'
import { type Attempt, mediumBetween, type Site } from './ground'
import { meanUm } from './matching'
import { rowLenses } from './rowLenses'

/** A usual isolator or filter fits into these. */
const DEVICE_STRETCHES_MM = [5, 4, 3] as const

type FittedRelay = NonNullable<ReturnType<typeof fittedRelay>>

/** The relay with the pair that suits best, at its best settings; null where none carries the beam. */
function fittedRelay(trial: Project, start: Candidate) {
  const fitted = withFittingLenses(trial, start)
  const compiled = compileCandidate({ ...trial, candidates: [fitted] }, fitted.id)
  const relay = fitted.chain[1]
  if (!compiled.ok || relay?.kind !== 'relay') return null
  const { joins, lossDb, nominal } = compiled.value
  const view = joins.flatMap((join) => join.relay?.(nominal) ?? [])[0]
  return view === undefined ? null : { fitted, relay, view, lossDb: lossDb(nominal) }
}

export function twoLensRelay(site: Site): Attempt {
  const { own, requirements, fibre, facet, facetMode, fibreMode } = site
  const ownIds = new Set(own.lenses.map(({ id }) => id))
  const pool = rowLenses(own.lenses, requirements)
  const [first] = pool
  if (first === undefined) {
    return {
      reason: `Lens arrays are available for pitches of 127 µm and above; the pitch here is ${plainText(coreValue(requirements.pitch, 'pitch'), 5)} µm. Fan the channels out first.`,
    }
  }
  const { medium, parts } = mediumBetween(site, 'gas', fibre, facet)
  const trial = {
    ...emptyProject(),
    requirements,
    fibres: [fibre],
    facets: [facet],
    media: [medium],
    lenses: [...pool],
  }
  const tries: FittedRelay[] = []
  for (const mm of requirements.collimatedSection ? DEVICE_STRETCHES_MM : STRETCHES_MM) {
    const relay = {
      ...newRelayElement('relay', medium.id, first.id, first.id),
      stretch: quantityOf(mm, 'mm', 'estimate', 0.05),
      ...(requirements.collimatedSection && { device: requiredIsolator(requirements) }),
    }
    const start: Candidate = {
      id: 'relay',
      name: 'relay',
      chain: [fibreElement(site), relay, facetElement(facet.id)],
      userLines: [],
    }
    const found = fittedRelay(trial, start)
    if (found !== null) tries.push(found)
    if (found !== null && staysParallel(found.view)) break
  }
  // The longest section over which the beam stays parallel; where there is none, the one that loses least.
  const best =
    tries.find(({ view }) => staysParallel(view)) ?? tries.toSorted((a, b) => a.lossDb - b.lossDb)[0]
  if (best === undefined) return { reason: 'No lens pair in the catalogue can relay the beam.' }
  const { fitted, relay, view } = best
  const used = pool.filter(({ id }) => id === relay.lens1Id || id === relay.lens2Id)
  const wanted = meanUm(facetMode) / meanUm(fibreMode)
  return {
    chain: fitted.chain,
    parts: joined(parts, { lenses: used.filter(({ id }) => !ownIds.has(id)) }),
    choice: `Magnification ${fixedText(view.magnification, 2)} (${fixedText(wanted, 2)} would match the modes); ${fixedText(view.stretchUm / 1000, 1)} mm between the lenses.`,
  }
}
