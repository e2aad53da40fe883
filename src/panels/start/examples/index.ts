// What the examples are about; each is built when it is opened.

import { demoProject } from '../../../model/index'
import type { Project } from '../../../model/schema/project'

interface Example {
  readonly id: string
  readonly label: string
  readonly story: string
  readonly load: () => Promise<Project>
}

const scenarios = () => import('./scenarios')

const TRANSMITTER =
  'A laser chip sends 200 mW into a polarisation-maintaining fibre, through an isolator in the collimated section.'
const ARRAY =
  'Sixteen bidirectional silicon channels at a pitch of 127 µm; one SSC chip matches the whole row to standard fibres.'
const BENCH =
  'Chips are tested before packaging: a lensed fibre at its working distance, nothing bonded, every facet probed.'

export const EXAMPLES: readonly Example[] = [
  {
    id: 'demo',
    label: 'Methane leak-survey receiver',
    story:
      'Twelve channels at 1653.7 nm behind a telescope: six families against a limit of 2 dB from −20 to 60 °C.',
    load: async () => demoProject(),
  },
  {
    id: 'transmitter',
    label: 'Ranging transmitter, PM with isolator',
    story: TRANSMITTER,
    load: async () => (await scenarios()).transmitter(TRANSMITTER),
  },
  {
    id: 'ssc-array',
    label: '16-channel array with SSC chip',
    story: ARRAY,
    load: async () => (await scenarios()).sscArray(ARRAY),
  },
  {
    id: 'test-bench',
    label: 'Lensed-fibre test bench',
    story: BENCH,
    load: async () => (await scenarios()).testBench(BENCH),
  },
]
