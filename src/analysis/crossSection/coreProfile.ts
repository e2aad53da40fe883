// The index across a core without walls, along the surface and in depth through its peak, as passed to the solver.

import type { CrossSectionEntry } from '../../model/schema/crossSection'
import type { GradedCore } from '../../optics/index'
import { stackIndexAt } from '../../optics/index'
import { opticsSection } from './opticsSection'

/** Places from the core centre, or from the peak upwards, um. */
interface IndexCut {
  readonly atUm: Float64Array
  readonly index: Float64Array
}

export interface CoreProfiles {
  readonly alongX: IndexCut
  readonly alongY: IndexCut
  readonly peakIndex: number
  readonly hostIndex: number
}

const POINTS = 161

/** Inside both ends by this share of the stretch: at an end itself the next layer begins. */
const INSIDE = 1e-6

const between = (from: number, to: number) =>
  Float64Array.from({ length: POINTS }, (_, i) => {
    const share = Math.min(1 - INSIDE, Math.max(INSIDE, i / (POINTS - 1)))
    return from + (to - from) * share
  })

/** Height of the greatest share on the core's own axis. */
function peakHeight({ share, xUm, reach }: GradedCore): number {
  const heights = between(reach.bottomUm, reach.topUm)
  return heights.reduce((best, y) => (share(xUm, y) > share(xUm, best) ? y : best), heights[0] as number)
}

/** Null for a core with walls. Throws InputError where the section has no index at the wavelength. */
export function coreProfiles(
  section: CrossSectionEntry,
  coreId: string,
  wavelengthUm: number,
): CoreProfiles | null {
  const stack = opticsSection(section, wavelengthUm)
  const core = stack.cores[section.cores.findIndex(({ id }) => id === coreId)]
  if (core?.shape !== 'graded') return null
  const hostIndex = stackIndexAt(stack, core.bottomUm + core.heightUm / 2)
  const { reach, xUm, share } = core
  const peakUm = peakHeight(core)
  const indexAt = (x: number, y: number) => stackIndexAt(stack, y) + (core.index - hostIndex) * share(x, y)
  const across = between(reach.leftUm, reach.rightUm)
  const upwards = between(reach.bottomUm, reach.topUm)
  return {
    alongX: { atUm: across.map((x) => x - xUm), index: across.map((x) => indexAt(x, peakUm)) },
    alongY: { atUm: upwards.map((y) => y - peakUm), index: upwards.map((y) => indexAt(xUm, y)) },
    peakIndex: core.index,
    hostIndex,
  }
}
