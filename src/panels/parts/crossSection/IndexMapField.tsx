// An index map from a file, with what the file leaves open as questions; an answer reads it again.

import { useState } from 'react'
import { runFieldJob } from '../../../jobs/fieldClient'
import type { Doubt } from '../../../measure/index'
import type { IndexMapEntry } from '../../../model/schema/coreTables'
import { ChoiceField } from '../../../ui/fields/ChoiceField'
import { useStartedJob } from '../../../ui/jobs/useStartedJob'
import { TableFile } from '../modeShape/TableFile'

const KIND = { description: 'Index map as a table', largestBytes: 20_000_000 }

interface OpenFile {
  readonly name: string
  readonly text: string
  readonly answers: Readonly<Record<string, string>>
  readonly doubts: readonly Doubt[]
}

export function IndexMapField({
  map,
  onMap,
}: {
  readonly map: IndexMapEntry | undefined
  readonly onMap: (map: IndexMapEntry) => void
}) {
  const [file, setFile] = useState<OpenFile | null>(null)
  const job = useStartedJob()
  const read = (next: Omit<OpenFile, 'doubts'>) =>
    job.start(
      async (signal) => {
        const { name, text, answers } = next
        const outcome = await runFieldJob('indexMap', { text, fileName: name, answers }, { signal })
        return outcome.ok ? outcome : { ok: false, message: `${name}: ${outcome.message}` }
      },
      (reading) => {
        setFile({ ...next, doubts: reading.doubts })
        onMap(reading.map)
      },
    )
  const open = async (chosen: File) => read({ name: chosen.name, text: await chosen.text(), answers: {} })
  return (
    <TableFile
      open={map === undefined ? 'Open index map…' : 'Replace index map…'}
      kind={KIND}
      inPlace={map}
      columns="Columns x, y and refractive index on a regular grid, or a grid with x along the first row and y down the first column."
      reading="Reading the index map…"
      job={job}
      onFile={(chosen) => void open(chosen)}
    >
      {file?.doubts.map((doubt) => (
        <ChoiceField
          key={doubt.id}
          label={doubt.question}
          value={doubt.assumed}
          choices={[doubt.assumed, ...doubt.alternatives].map((value) => ({
            value,
            label: value === 'um' ? 'µm' : value,
          }))}
          onChoose={(answer) => void read({ ...file, answers: { ...file.answers, [doubt.id]: answer } })}
        />
      ))}
    </TableFile>
  )
}
