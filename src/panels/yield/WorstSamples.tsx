// The worst simulated assemblies, each of which can be opened as a design of its own.

import { useMemo } from 'react'
import { withSampleCase } from '../../analysis/yield/sampleCase'
import { type SampleDeviation, sampleDeviations } from '../../analysis/yield/sampleDeviations'
import type { YieldResult } from '../../analysis/yield/yieldResult'
import { lossText } from '../../model/quantity/lossText'
import type { Project } from '../../model/schema/project'
import { fixedText } from '../../numerics/numberText'
import { selectDesign } from '../../store/view'
import { editProject } from '../../store/workbench'

const SHOWN = 8
const DEVIATIONS = 3

function deviationText(deviations: readonly SampleDeviation[]): string {
  return deviations
    .map(({ label, sigmas }) => `${label}: ${sigmas < 0 ? '−' : '+'}${fixedText(Math.abs(sigmas), 1)}`)
    .join('; ')
}

export function WorstSamples({
  project,
  candidateId,
  result,
  stale,
}: {
  readonly project: Project
  readonly candidateId: string
  readonly result: YieldResult
  readonly stale: boolean
}) {
  const { samples, seed, method, worst } = result
  // A stale result's samples cannot be simulated again: its numbers are gone.
  const deviations = useMemo(() => {
    if (stale) return null
    const indices = worst.slice(0, SHOWN).map((each) => each.index)
    return sampleDeviations(project, candidateId, { samples, seed, method }, indices, DEVIATIONS)
  }, [project, candidateId, samples, seed, method, worst, stale])
  const open = (index: number) => {
    const next = withSampleCase(project, candidateId, { samples, seed, method }, index)
    editProject((draft) => {
      Object.assign(draft, next.project)
    })
    selectDesign(next.candidateId)
  }
  return (
    <table className="worst-samples">
      <caption>Worst simulated assemblies</caption>
      <thead>
        <tr>
          <th scope="col" className="number">
            Sample
          </th>
          <th scope="col" className="number">
            Loss, dB
          </th>
          <th scope="col">Largest deviations, in standard deviations</th>
          <th scope="col">
            <span className="visually-hidden">Open</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {worst.slice(0, SHOWN).map(({ index, lossDb }, at) => (
          <tr key={index}>
            <td className="number">{index}</td>
            <td className="number">{lossText(lossDb)}</td>
            <td className="quiet">{deviations === null ? '–' : deviationText(deviations[at] ?? [])}</td>
            <td>
              <button type="button" className="subtle" disabled={stale} onClick={() => open(index)}>
                Open<span className="visually-hidden"> sample {index} as a design</span>
              </button>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
