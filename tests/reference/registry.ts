// All outside checks, in the order of docs/validation.md. A new list is added here and nowhere else.

import type { CheckSection } from './checkRow'
import { beamChecks } from './checks/beams'
import { benchChecks } from './checks/bench'
import { coatingChecks } from './checks/coatings'
import { faceChecks } from './checks/faces'
import { fibreModeChecks } from './checks/fibreModes'
import { jointChecks } from './checks/joints'
import { materialChecks } from './checks/materials'
import { yieldChecks } from './checks/yield'

export const CHECK_SECTIONS: readonly CheckSection[] = [
  { title: 'Joints of Gaussian modes', rows: jointChecks },
  { title: 'Step-index fibre modes', rows: fibreModeChecks },
  { title: 'Refractive indices', rows: materialChecks },
  { title: 'Faces: reflection, pointing, interference, polarisation', rows: faceChecks },
  { title: 'Coatings, round trips, series of joints, irradiance', rows: coatingChecks },
  { title: 'Beams, lenses and apertures', rows: beamChecks },
  { title: 'Bench: scans, images, fits, uncertainty', rows: benchChecks },
  { title: 'Yield, arrays, temperature', rows: yieldChecks },
]
