// The worst of the drawn assemblies, each of which can be opened as a candidate of its own.

import { withSampleCase } from '../../analysis/yield/sampleCase'
import type { YieldResult } from '../../analysis/yield/yieldResult'
import type { Project } from '../../model/project'
import { editProject, useWorkbench } from '../../store/workbench'
import { lossText } from '../candidate/numbers'

const SHOWN = 8

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
  const selectCandidate = useWorkbench((state) => state.selectCandidate)
  const open = (index: number) => {
    const { samples, seed, method } = result
    const next = withSampleCase(project, candidateId, { samples, seed, method }, index)
    editProject((draft) => {
      Object.assign(draft, next.project)
    })
    selectCandidate(next.candidateId)
  }
  return (
    <table className="worst-samples">
      <caption>Worst assemblies drawn</caption>
      <thead>
        <tr>
          <th scope="col" className="number">
            Sample
          </th>
          <th scope="col" className="number">
            Loss, dB
          </th>
          <th scope="col">
            <span className="visually-hidden">Open</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {result.worst.slice(0, SHOWN).map(({ index, lossDb }) => (
          <tr key={index}>
            <td className="number">{index}</td>
            <td className="number">{lossText(lossDb)}</td>
            <td>
              <button type="button" disabled={stale} onClick={() => open(index)}>
                Open as a candidate<span className="visually-hidden">, sample {index}</span>
              </button>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
