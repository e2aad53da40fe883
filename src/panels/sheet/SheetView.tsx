// The review sheet on screen and on paper.

import type { Sheet, SheetCandidate } from '../../report/sheet'
import { Cautions } from '../app/Cautions'
import { LaserCautions } from '../app/LaserCautions'
import { BudgetTable } from '../candidate/BudgetTable'
import { Contributions } from '../candidate/Contributions'
import { VerdictList } from '../candidate/VerdictList'
import { WorstCornerSettings } from '../candidate/WorstCornerSettings'
import { InputTable } from './InputTable'
import { RunSections } from './RunSections'
import { SheetLight } from './SheetLight'
import './sheet.css'

function CandidateSection({ candidate }: { readonly candidate: SheetCandidate }) {
  return (
    <section className="sheet-candidate">
      <h2>{candidate.name}</h2>
      {candidate.remark !== '' && <p>{candidate.remark}</p>}
      <VerdictList verdicts={candidate.verdicts} />
      <BudgetTable evaluation={candidate.evaluation} run={candidate.yield} />
      <Contributions evaluation={candidate.evaluation} />
      <WorstCornerSettings evaluation={candidate.evaluation} />
      <SheetLight evaluation={candidate.evaluation} />
      <InputTable inputs={candidate.inputs} />
      <RunSections candidate={candidate} />
      {candidate.evaluation.validity.length > 0 && (
        <>
          <h3>How far the model holds</h3>
          <ul>
            {candidate.evaluation.validity.map((note) => (
              <li key={`${note.elementId} ${note.message}`}>{note.message}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  )
}

function TextList({ title, texts }: { readonly title: string; readonly texts: readonly string[] }) {
  if (texts.length === 0) return null
  return (
    <section>
      <h2>{title}</h2>
      <ul>
        {texts.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </section>
  )
}

export function SheetView({ sheet }: { readonly sheet: Sheet }) {
  return (
    <article className="review-sheet">
      <h1>{sheet.title}</h1>
      <p className="quiet">Coupling budget for review, {sheet.date}</p>
      {sheet.remark !== '' && <p>{sheet.remark}</p>}
      <ul>
        {sheet.requirements.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      {sheet.candidates.length + sheet.refused.length === 0 && <p>No candidate yet.</p>}
      {sheet.candidates.map((candidate) => (
        <CandidateSection key={candidate.id} candidate={candidate} />
      ))}
      {sheet.refused.map((refused) => (
        <section key={refused.id}>
          <h2>{refused.name}: not computed</h2>
          <ul>
            {refused.issues.map((issue) => (
              <li key={issue.message}>{issue.message}</li>
            ))}
          </ul>
        </section>
      ))}
      <TextList title="What the totals assume" texts={sheet.assumptions} />
      <TextList title="Open questions" texts={sheet.openQuestions} />
      <LaserCautions />
      <Cautions />
    </article>
  )
}
