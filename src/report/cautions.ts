// The one caution text, wherever the work it belongs to is planned, entered or printed. Nothing here classifies, or says what is safe.

import type { StepWord } from '../model/words/assembly'

export const CAUTIONS =
  'Laser light, invisible in the infrared and the ultraviolet, is emitted from every open facet, fibre end and unmated connector; it can injure the eye, and invisible light triggers no blink reflex. Magnifiers, microscopes and fibre scopes increase the hazard. Power below any figure shown here does not make a set-up safe: the laser class (IEC 60825-1) and the hazard level of a fibre system (IEC 60825-2) must be determined by assessment; this app does not determine them. Cleaved fibre ends and offcuts are sharp glass shards. UV lamps and uncured adhesives can harm eyes and skin. Switch off the source before inspecting. Follow the local laser-safety rules and the instructions of the responsible safety officer.'

const DEFER = 'Follow the local laser-safety rules and the instructions of the responsible safety officer.'

/** What to be careful of at a step of an assembly. */
export const STEP_CAUTIONS: Readonly<Record<StepWord, string>> = {
  place: `Fibre ends and broken edges are glass shards: wear eye protection and use a sharps container for offcuts. Source off while end faces are handled or inspected. ${DEFER}`,
  align: `Laser light, usually invisible, is on and is emitted from open facets and fibre ends: keep the power at the agreed level, and switch it off before any inspection. ${DEFER}`,
  dispense: `Uncured adhesive can harm skin and eyes: wear gloves, ventilate, and follow the safety data sheet of the supplier. Keep the source off while watching the adhesive being dispensed. ${DEFER}`,
  cure: `UV lamps can harm eyes and skin: close the shields and wear goggles rated for the lamp's wavelength. Laser light, usually invisible, may be on to monitor the power. ${DEFER}`,
  fix: `Laser light, usually invisible, may be on to monitor the power. If adhesive outside the optical path holds the part, UV lamps and uncured adhesive can harm eyes and skin: close the shields and wear goggles rated for the lamp's wavelength. ${DEFER}`,
  check: `Laser light, usually invisible, is on: leave no connector open, and use no magnifying optics. ${DEFER}`,
}
