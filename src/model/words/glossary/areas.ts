// The areas of the glossary in the order in which they are printed.

import { ALIGNMENT_TERMS } from './alignment'
import { ARRAY_TERMS } from './arrays'
import { BUILD_TERMS } from './build'
import { COMPONENT_TERMS } from './components'
import { CROSS_SECTION_TERMS } from './crossSection'
import { LIGHT_TERMS } from './light'
import { LOSS_TERMS } from './losses'
import { MEASUREMENT_TERMS } from './measurements'
import { MODE_TERMS } from './modes'
import { PATH_TERMS } from './path'
import { TOLERANCE_TERMS } from './tolerances'

export const AREAS = {
  'Losses and budget': LOSS_TERMS,
  'Optical path and designs': PATH_TERMS,
  'Alignment and assembly': ALIGNMENT_TERMS,
  'Clearance and build': BUILD_TERMS,
  'Modes and indices': MODE_TERMS,
  'Reflections, polarisation and power': LIGHT_TERMS,
  'Tolerances and yield': TOLERANCE_TERMS,
  Arrays: ARRAY_TERMS,
  'Facets, lenses and lensed fibres': COMPONENT_TERMS,
  'Waveguide cross-section': CROSS_SECTION_TERMS,
  Measurements: MEASUREMENT_TERMS,
} as const

type KeyOf<T> = T extends unknown ? keyof T : never
export type TermId = KeyOf<(typeof AREAS)[keyof typeof AREAS]>
