// The stress test that a design takes its drift from.

import type { Candidate } from '../schema/candidate'
import type { MeasurementOf } from '../schema/measurement'
import type { Project } from '../schema/project'

/** Undefined where the design states no lifetime, or its test is gone. */
export function stressTestOf(project: Project, { lifetime }: Candidate): MeasurementOf<'stress'> | undefined {
  if (lifetime === undefined) return undefined
  const found = project.measurements.find(({ id }) => id === lifetime.measurementId)
  return found?.method === 'stress' ? found : undefined
}
