// All outside checks, in the order of docs/validation.md. A new list is added here and nowhere else.

import type { CheckRow, CheckSection } from './checkRow'
import { beamChecks } from './checks/beams'
import { benchChecks } from './checks/bench'
import { clearanceChecks } from './checks/clearance'
import { coatingChecks } from './checks/coatings'
import { faceChecks } from './checks/faces'
import { fibreModeChecks } from './checks/fibreModes'
import { fieldChecks } from './checks/fields'
import { guideChecks } from './checks/guides'
import { jointChecks } from './checks/joints'
import { lensChecks } from './checks/lenses'
import { materialChecks } from './checks/materials'
import { substrateChecks } from './checks/substrate'
import { yieldChecks } from './checks/yield'

const SECTIONS: readonly CheckSection[] = [
  { title: 'Joints of Gaussian modes', rows: jointChecks },
  { title: 'Step-index fibre modes', rows: fibreModeChecks },
  { title: 'Modes of waveguide cross-sections', rows: guideChecks },
  { title: 'Facet modes above a substrate', rows: substrateChecks },
  { title: 'Sampled fields', rows: fieldChecks },
  { title: 'Refractive indices', rows: materialChecks },
  { title: 'Faces: reflection, pointing, interference, polarisation', rows: faceChecks },
  { title: 'Coatings, round trips, series of joints, irradiance', rows: coatingChecks },
  { title: 'Beams, lenses and apertures', rows: beamChecks },
  { title: 'Real tips, lenses and angled fibres', rows: lensChecks },
  { title: 'Measurements: scans, images, fits, uncertainty', rows: benchChecks },
  { title: 'Yield, arrays, temperature', rows: yieldChecks },
  { title: 'Clearance and assembly', rows: clearanceChecks },
]

/** Some numbers take long: each is worked out once, for its own check and for the page. */
function remembering({ ours, ...row }: CheckRow): CheckRow {
  let known: number | null = null
  return { ...row, ours: () => (known ??= ours()) }
}

export const CHECK_SECTIONS: readonly CheckSection[] = SECTIONS.map(({ title, rows }) => ({
  title,
  rows: rows.map(remembering),
}))
