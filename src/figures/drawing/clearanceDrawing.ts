// What is brought up to the chip and the chip's edge, whole and to scale, with where no end face can be.

import type { ClearanceFinding } from '../../analysis/clearance/findings'
import { contactText } from '../../analysis/clearance/findings'
import type { JointView } from '../../analysis/results/evaluation'
import { plainText, roundedTo } from '../../numerics/numberText'
import type { Drawing, Figure } from '../figure'
import type { JointBodies } from './jointBodies'
import { jointPlane } from './jointPlane'
import { jointShapes } from './jointShapes'
import { fittedPxPerUm } from './scale'
import { bar, drawn, sheetView as viewOf } from './sheet'

interface Size {
  readonly widthPx: number
  readonly heightPx: number
}

const USUAL_SIZE: Size = { widthPx: 560, heightPx: 320 }
/** Air about the body in the picture: what the name of the view needs above it. */
const AROUND = 1.3

const um = (value: number) => `${plainText(roundedTo(value, 1))} µm`

/** Reach of the bodies about the axis, and how deep the ledge lies. */
function halfHeightUm({ setup }: ClearanceFinding, parts: JointBodies): number {
  let most = 0
  for (const { corners } of setup.solids) {
    for (let i = 1; i < corners.length; i += 3) most = Math.max(most, Math.abs(corners[i] ?? 0))
  }
  return Math.max(most, parts.claddingDiameterUm / 2, Math.min(1000, setup.edge?.ledgeDepthUm ?? 0))
}

/** The answer in one sentence. */
export function clearanceSentence({ contact, gapUm, reached }: ClearanceFinding): string {
  if (contact === null) return 'Nothing obstructs the end face.'
  const what = contactText(contact)
  const touch = `${what.charAt(0).toUpperCase()}${what.slice(1)}`
  return reached
    ? `Fits: the gap of ${um(gapUm)} is ${um(gapUm - contact.gapUm)} above contact. ${touch}.`
    : `Not reachable: the entered gap is ${um(gapUm)}, ${um(contact.gapUm - gapUm)} below contact. ${touch}.`
}

export function clearanceFigure(
  finding: ClearanceFinding,
  view: JointView,
  parts: JointBodies,
  { widthPx, heightPx }: Size = USUAL_SIZE,
): Figure<Drawing> {
  const heightUm = 2 * AROUND * halfHeightUm(finding, parts)
  const { gapUm } = view.joint
  const scale = {
    pxPerUm: fittedPxPerUm(gapUm + heightUm, heightUm, widthPx, heightPx),
    middleXPx: widthPx / 2,
    middleYPx: heightPx / 2,
    centreZUm: -gapUm / 2,
  }
  const plane = jointPlane(view, parts, 'y')
  const shapes = jointShapes({ axis: 'y', view, plane, parts, scale, widthPx })
  return {
    id: `clearance-${view.elementId}`,
    sentence: clearanceSentence(finding),
    picture: drawn(
      heightPx,
      [viewOf('y', 0, heightPx, [...shapes, ...bar(scale.pxPerUm, heightPx, widthPx)], widthPx)],
      widthPx,
    ),
    table: {
      columns: [{ label: 'Dimension' }, { label: 'Value', unit: 'µm', digits: 2 }],
      rows: [
        ['Entered gap', finding.gapUm],
        ['Smallest reachable gap', Math.max(0, finding.contact?.gapUm ?? 0)],
        ['Contact x', finding.contact?.xUm ?? 0],
        ['Contact y', finding.contact?.yUm ?? 0],
      ],
    },
  }
}
