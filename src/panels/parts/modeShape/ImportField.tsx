// Bringing a field: a table from a file, or an image among the measurements.

import { runFieldJob } from '../../../jobs/fieldClient'
import type { ImportedShape } from '../../../model/schema/modeShape'
import type { Project } from '../../../model/schema/project'
import { byId } from '../../../model/words/byId'
import { ChoiceField } from '../../../ui/fields/ChoiceField'
import { useStartedJob } from '../../../ui/jobs/useStartedJob'
import { TableFile } from './TableFile'

const KIND = { description: 'Field as a table', largestBytes: 50_000_000 }

export function ImportField({
  shape,
  project,
  wavelengthUm,
  onImport,
}: {
  /** The field that is in place, or null. */
  readonly shape: ImportedShape | null
  readonly project: Project
  readonly wavelengthUm: number
  readonly onImport: (shape: ImportedShape) => void
}) {
  const job = useStartedJob()
  const images = project.measurements.filter((each) => each.method === 'image')
  const fromTable = (file: File) =>
    job.start(async (signal) => {
      const input = { text: await file.text(), fileName: file.name, wavelengthUm }
      return runFieldJob('table', input, { signal })
    }, onImport)
  const fromImage = (id: string) => {
    const measurement = byId(images, id)
    if (measurement === undefined) return
    void job.start((signal) => runFieldJob('image', { measurement, wavelengthUm }, { signal }), onImport)
  }
  return (
    <TableFile
      open={shape === null ? 'Open field table…' : 'Replace with a table…'}
      kind={KIND}
      inPlace={shape ?? undefined}
      columns="Columns x and y with amplitude and phase, real and imaginary, or intensity (a flat phase is then assumed), on a regular grid."
      reading="Reading the field"
      job={job}
      onFile={(file) => void fromTable(file)}
    >
      {images.length > 0 && (
        <ChoiceField
          label="Image in Measurements"
          value=""
          choices={[
            { value: '', label: 'choose' },
            ...images.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          onChoose={fromImage}
        />
      )}
    </TableFile>
  )
}
