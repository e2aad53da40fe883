// The demo with a design that takes its drift from a stress test.

import { newMeasurement, readMeasurement } from '../../src/measure/index'
import { demoProject } from '../../src/model/index'
import type { Project } from '../../src/model/schema/project'

const HOURS = [0, 250, 500, 1000] as const

/** Three assemblies that drift by so many dB in 1000 h. */
function stressTable(driftDb: number): string {
  const rows = [0, 1, 2].flatMap((assembly) =>
    HOURS.map((t) => `S${assembly};${t};${(0.7 + 0.1 * assembly + (driftDb * t) / 1000).toFixed(5)}`),
  )
  return ['Serial;Time [h];Insertion loss [dB]', ...rows].join('\n')
}

/** The test as it is kept. */
export function stressMeasurement(driftDb: number): Project['measurements'][number] {
  const reading = readMeasurement(new TextEncoder().encode(stressTable(driftDb)), 'aging.csv')
  const measurement = newMeasurement(reading, {}, { id: 'aging', fileName: 'aging.csv', date: '2026-03-14' })
  if (measurement?.method !== 'stress') throw new Error('not read as a stress test')
  return measurement
}

/** The design has served as long as the test took. */
export function agedProject(designId: string, driftDb: number): Project {
  const project = demoProject()
  const design = project.candidates.find(({ id }) => id === designId)
  if (design === undefined) throw new Error(`no ${designId}`)
  design.lifetime = { measurementId: 'aging', law: 'linear', serviceYears: 1000 / 8766 }
  return { ...project, measurements: [stressMeasurement(driftDb)] }
}
