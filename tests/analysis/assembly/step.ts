import type { AssemblyStep } from '../../../src/model/schema/build/assembly'

/** A step that takes no time, costs nothing and spoils nothing unless `more` says so. */
export const step = (
  id: string,
  kind: AssemblyStep['kind'],
  more: Partial<AssemblyStep> = {},
): AssemblyStep => ({
  id,
  name: id,
  kind,
  minutes: 0,
  scrapCost: 0,
  spoiledPercent: 0,
  ...more,
})
