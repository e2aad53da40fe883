// The families to choose from, each drafted for the open project: picture, nominal loss, what it is good for. A family that
// does not apply stays in sight with the reason.

import { useEffect, useState } from 'react'
import { tryEvaluate } from '../../analysis/index'
import { FAMILIES, type Family } from '../../analysis/proposals/families'
import { type NewDesign, newDesign, writeDesign } from '../../analysis/proposals/proposeProject'
import { type PathStop, pathStops } from '../../figures/path/pathStops'
import { USUAL_OUTLINES } from '../../figures/path/usualOutlines'
import { lossText } from '../../model/quantity/lossText'
import type { Project } from '../../model/schema/project'
import { LIMITS } from '../../model/words/limits'
import { closeAddDesign, openDesign } from '../../store/view'
import { editProject, useWorkbench } from '../../store/workbench'
import { PathThumbnail } from '../../ui/figures/PathThumbnail'

type Offer =
  | {
      readonly design: NewDesign
      readonly stops: readonly PathStop[]
      readonly nominalDb: number | null
    }
  | { readonly reason: string }

/** Of a project as it is: an edit makes another object of it. */
const drafted = new WeakMap<Project, Map<string, Offer>>()

function offerOf(project: Project, family: Family): Offer {
  const known = drafted.get(project) ?? new Map<string, Offer>()
  drafted.set(project, known)
  const offer = known.get(family.id) ?? draftOf(project, family)
  known.set(family.id, offer)
  return offer
}

function draftOf(project: Project, family: Family): Offer {
  const design = newDesign(project, family)
  if ('reason' in design) return design
  const trial = structuredClone(project)
  writeDesign(trial, design)
  const result = tryEvaluate(trial, design.candidate.id)
  return {
    design,
    stops: result.ok ? pathStops(trial, design.candidate, result.value) : USUAL_OUTLINES[family.id],
    nominalDb: result.ok ? result.value.nominalDb : null,
  }
}

/** The offers as they become known, family by family; the page stays free in between. */
function useOffers(project: Project): ReadonlyMap<string, Offer> {
  const [offers, setOffers] = useState<ReadonlyMap<string, Offer>>(new Map())
  useEffect(() => {
    const stop = new AbortController()
    const draft = async () => {
      for (const family of FAMILIES) {
        await new Promise<void>((resolve) => setTimeout(resolve, 0))
        if (stop.signal.aborted) return
        const offer = offerOf(project, family)
        setOffers((now) => new Map([...now, [family.id, offer]]))
      }
    }
    void draft()
    return () => stop.abort()
  }, [project])
  return offers
}

function Card({
  family,
  offer,
  onAdd,
}: {
  readonly family: Family
  readonly offer: Offer | undefined
  readonly onAdd: () => void
}) {
  const refused = offer !== undefined && 'reason' in offer
  const known = offer !== undefined && !('reason' in offer) ? offer : null
  return (
    <li>
      <button
        type="button"
        className="family-card"
        aria-disabled={refused ? true : undefined}
        onClick={() => {
          if (!refused) onAdd()
        }}
      >
        <span aria-hidden="true">
          <PathThumbnail
            stops={known?.stops ?? USUAL_OUTLINES[family.id]}
            label={`Mode along the path: ${family.label}`}
          />
        </span>
        <span className="family-head">
          <strong>
            <span className="visually-hidden">Add </span>
            {family.label}
          </strong>
          {known?.nominalDb != null && <span>{lossText(known.nominalDb)} dB</span>}
          {offer === undefined && <span className="quiet">…</span>}
        </span>
        <span className="family-words">{refused ? `Does not apply: ${offer.reason}` : family.goodFor}</span>
      </button>
    </li>
  )
}

export function FamilyGallery() {
  const project = useWorkbench((state) => state.project)
  const offers = useOffers(project)
  if (project.candidates.length >= LIMITS.candidates) {
    return <p className="quiet">A project holds at most {LIMITS.candidates} designs.</p>
  }
  const add = (family: Family) => {
    const known = offers.get(family.id) ?? offerOf(project, family)
    if ('reason' in known) return
    editProject((draft) => writeDesign(draft, known.design))
    openDesign(known.design.candidate.id)
    closeAddDesign()
  }
  return (
    <>
      <p className="quiet">
        Each is drafted for this fibre and facet, using parts of the project where suitable and typical parts
        otherwise. The number is the nominal loss at the optimum settings.
      </p>
      <ul className="family-gallery">
        {FAMILIES.map((family) => (
          <Card key={family.id} family={family} offer={offers.get(family.id)} onAdd={() => add(family)} />
        ))}
      </ul>
    </>
  )
}
