// Readings that come with the examples, made from the numbers of their projects with a little noise. All of them are invented.

import { neededFacts, newMeasurement, readMeasurement } from '../../../measure'
import type { Measurement } from '../../../model/schema/measurement'

const DATE = '2026-03-14'
const INVENTED = '# Invented for the example, not a measurement'

/** A small repeatable deviation between -1 and 1, different from line to line. */
const wobble = (n: number) => {
  const x = Math.sin(12.9898 * n + 4.1414) * 43758.5453
  return 2 * (x - Math.floor(x)) - 1
}

/** The text of a file as the project keeps it. */
function taken(id: string, fileName: string, text: string): readonly Measurement[] {
  const reading = readMeasurement(new TextEncoder().encode(text), fileName)
  const facts = Object.fromEntries(
    neededFacts(reading).flatMap(({ name, found }) => (found === null ? [] : [[name, found]])),
  )
  const measurement = newMeasurement(reading, facts, { id, fileName, date: DATE })
  return measurement === null ? [] : [measurement]
}

/** Power over stage position on both axes for a Gaussian facet mode and a Gaussian probe. */
export function offsetScan(
  id: string,
  fileName: string,
  probeUm: number,
  mfdXUm: number,
  mfdYUm: number,
): readonly Measurement[] {
  const power = (atUm: number, mfdUm: number, n: number) => {
    const width = (probeUm ** 2 + mfdUm ** 2) / 8
    return 12 * Math.exp(-(atUm ** 2) / width) * (1 + 0.002 * wobble(n)) + 0.001
  }
  const rows = Array.from({ length: 61 }, (_, i) => {
    const at = (i - 30) / 5
    return [
      at.toFixed(2),
      power(at - 0.07, mfdXUm, i).toFixed(5),
      power(at + 0.04, mfdYUm, i + 100).toFixed(5),
    ]
  })
  return taken(
    id,
    fileName,
    [
      INVENTED,
      `# probe_MFD_um: ${probeUm}`,
      'stage position [um],P along x [uW],P along y [uW]',
      ...rows.map((row) => row.join(',')),
    ].join('\n'),
  )
}

/** Insertion loss fibre, guide, fibre at four lengths, three guides each. */
export function loopback(
  id: string,
  fileName: string,
  facetDb: number,
  dbPerCm: number,
): readonly Measurement[] {
  const rows = [5, 10, 20, 40].flatMap((mm) =>
    [0, 1, 2].map((guide) => {
      const lossDb = 2 * facetDb + (dbPerCm * mm) / 10 + 0.05 * wobble(mm + guide)
      return `${mm},${lossDb.toFixed(3)}`
    }),
  )
  return taken(id, fileName, [INVENTED, 'length [mm],insertion loss [dB]', ...rows].join('\n'))
}

/** Far field of a fibre with a Gaussian mode. */
export function farField(
  id: string,
  fileName: string,
  wavelengthUm: number,
  mfdUm: number,
): readonly Measurement[] {
  const rows = Array.from({ length: 121 }, (_, i) => {
    const deg = (i - 60) / 4
    const angle = Math.sin((deg * Math.PI) / 180)
    const power = Math.exp(-2 * ((Math.PI * mfdUm * angle) / (2 * wavelengthUm)) ** 2)
    return `${deg},${(power * (1 + 0.003 * wobble(i)) + 2e-5).toFixed(7)}`
  })
  return taken(
    id,
    fileName,
    [INVENTED, `# wavelength_nm: ${1000 * wavelengthUm}`, 'angle_deg,power_uW', ...rows].join('\n'),
  )
}
