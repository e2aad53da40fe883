// The one caution text, wherever the work it belongs to is planned, typed or printed. Nothing here classifies, or says what is safe.

import type { StepKind } from '../model/words/assembly'

export const CAUTIONS =
  'Invisible infrared light leaves every open facet, fibre end and unmated connector and can injure the eye, which neither sees it nor blinks at it; magnifiers, microscopes and fibre scopes raise the hazard. Power below any figure shown here does not make a set-up safe: the laser class (IEC 60825-1) and the hazard level of a fibre system (IEC 60825-2) are found by assessment, not by this program. Cleaved fibre ends are glass shards. UV lamps and uncured adhesives harm eyes and skin. Switch the light off before you look. Follow the local laser-safety rules and the responsible safety officer.'

const DEFER = 'Follow the local laser-safety rules and the responsible safety officer.'

/** What to be careful of at a step of an assembly. */
export const STEP_CAUTIONS: Readonly<Record<StepKind, string>> = {
  place: `Fibre ends and broken edges are glass shards: eye protection, and a sharps container for offcuts. Light off while end faces are handled or looked at. ${DEFER}`,
  align: `Invisible laser light is on, and leaves open facets and fibre ends: keep the power at what is agreed, and switch it off before anybody looks in. ${DEFER}`,
  dispense: `Uncured adhesive harms skin and eyes: gloves, ventilation, and the safety data sheet of the supplier. Light off while dispensing by eye. ${DEFER}`,
  cure: `UV lamps harm eyes and skin: shields closed, and goggles for the lamp's wavelength. Invisible laser light may be on to watch the power. ${DEFER}`,
  check: `Invisible laser light is on: no open connector, and no magnifier while it is. ${DEFER}`,
}
