// How measurements are opened: a file, a dropped file, a pasted table, an example.

import { type FirstFileOpenOptions, fileOpen } from 'browser-fs-access'
import { useRef, useState } from 'react'
import { offerFiles, offerText, setPasted, useDesk } from '../../../store/benchDesk'
import { wasCancelled } from '../../../store/files/projectFiles'
import { Complaint } from '../../../ui/controls/Complaint'
import nearField from './examples/facet-near-field.pgm?url'
import offsetScan from './examples/facet-offset-scan.csv?url'
import farField from './examples/fibre-far-field.csv?url'
import loopback from './examples/loopback.csv?url'

const READABLE: FirstFileOpenOptions<true> = {
  description: 'Measurements',
  extensions: ['.csv', '.txt', '.dat', '.tsv', '.pgm', '.png', '.tif', '.tiff'],
  multiple: true,
}

interface Example {
  readonly file: string
  readonly label: string
  /** Where the build has put it; within the page itself where that is one file. */
  readonly url: string
}

const EXAMPLES: readonly Example[] = [
  { file: 'fibre-far-field.csv', label: 'Far field of the fibre', url: farField },
  { file: 'facet-offset-scan.csv', label: 'Offset scan over the facet', url: offsetScan },
  { file: 'facet-near-field.pgm', label: 'Near field of the facet', url: nearField },
  { file: 'loopback.csv', label: 'Loopback at four lengths', url: loopback },
]

/** Small files are part of the app, as data addresses, which a page with a content policy may not fetch. */
async function exampleContent(url: string): Promise<BlobPart> {
  const packed = /^data:[^,]*;base64,(.*)$/.exec(url)?.[1]
  if (packed !== undefined) return Uint8Array.from(atob(packed), (each) => each.charCodeAt(0))
  if (url.startsWith('data:')) return decodeURIComponent(url.slice(url.indexOf(',') + 1))
  const answer = await fetch(url)
  if (!answer.ok) throw new Error(answer.statusText)
  return answer.blob()
}

export function AddReadings({
  first,
}: {
  /** True where opening a file is the next step. */
  readonly first: boolean
}) {
  const text = useDesk((state) => state.pasted)
  const wasOpened = useRef(false)
  wasOpened.current ||= text !== ''
  const [complaint, setComplaint] = useState('')
  const open = async () => {
    try {
      offerFiles(await fileOpen(READABLE))
    } catch (error) {
      if (!wasCancelled(error)) setComplaint('The file could not be opened.')
    }
  }
  const openExample = async ({ file: name, url }: Example) => {
    try {
      offerFiles([new File([await exampleContent(url)], name)])
    } catch {
      setComplaint(`The example ${name} could not be loaded.`)
    }
  }
  return (
    <section className="add-readings" aria-label="Add a measurement">
      <button type="button" className={first ? 'primary' : undefined} onClick={() => void open()}>
        Open measurement…
      </button>
      <details open={wasOpened.current}>
        <summary>Paste a table</summary>
        <textarea
          aria-label="Table to read"
          rows={6}
          value={text}
          spellCheck={false}
          onChange={(event) => setPasted(event.target.value)}
        />
        <button type="button" disabled={text.trim() === ''} onClick={() => offerText(text)}>
          Read the table
        </button>
      </details>
      <h2>Examples</h2>
      {EXAMPLES.map((example) => (
        <button key={example.file} type="button" className="subtle" onClick={() => void openExample(example)}>
          {example.label}
        </button>
      ))}
      <p className="quiet">Invented demo data.</p>
      <Complaint text={complaint} />
    </section>
  )
}
