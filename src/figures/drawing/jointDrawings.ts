// The drawings of the joints of a candidate, to scale: side view over top view of every gap and relay, with dimensions and a scale
// bar.

import type { Evaluation, JointView, RelayView } from '../../analysis/results/evaluation'
import { partName } from '../../model/project/references'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { fixedText, plainText, roundedTo } from '../../numerics/numberText'
import type { Drawing, Figure } from '../figure'
import { element, type Markup } from '../render/markup'
import { fittedText } from '../render/textWidth'
import { type JointBodies, jointBodies } from './jointBodies'
import { type JointPlane, jointPlane } from './jointPlane'
import { jointShapes } from './jointShapes'
import { relayPlane, relayShapes } from './relayShapes'
import { fittedPxPerUm, type Scale, transversePx, zPx } from './scale'
import { bar, drawn, label, SHEET_WIDTH_PX, sheetView } from './sheet'

const VIEW_PX = 136
const RELAY_PX = 136
const MARGIN_PX = 90
const DIMENSION_PX = 46
const TICK_PX = 5
const SHORTEST_OFFSET_PX = 2
const NAME_PX = 260
/** Free between the side view and the top view. */
const APART_PX = 6
/** The name of the chip side: its baseline from the upper edge, and what it takes below that edge. */
const NAME_BASE_PX = 17
const NAME_TALL_PX = 24
/** The mode in a lensed fibre is shown whole, with this about it. */
const TIP_MARGIN = 1.15

const um = (value: number) => `${plainText(roundedTo(value, 2))} µm`

function dimensions(
  gapUm: number,
  offsetUm: number,
  axis: 'x' | 'y',
  plane: JointPlane,
  scale: Scale,
): readonly Markup[] {
  const [face, chip] = [zPx(scale, -gapUm), zPx(scale, 0)]
  const [axisPx, fibrePx] = [transversePx(scale, plane.originVUm), transversePx(scale, plane.centreVUm)]
  const offsetLine = face - 34
  const offsetShown = Math.abs(fibrePx - axisPx) > SHORTEST_OFFSET_PX
  return [
    element('path', {
      class: 'drawn-dimension',
      d: `M${face} ${DIMENSION_PX}H${chip}M${face} ${DIMENSION_PX - TICK_PX}v${2 * TICK_PX}M${chip} ${DIMENSION_PX - TICK_PX}v${2 * TICK_PX}${
        offsetShown ? `M${offsetLine} ${axisPx}V${fibrePx}M${offsetLine} ${fibrePx}H${face}` : ''
      }`,
    }),
    label((face + chip) / 2, DIMENSION_PX - 12, `gap ${um(gapUm)}`, 'middle'),
    label(offsetLine - 6, (axisPx + fibrePx) / 2 - 8, `offset ${axis} ${um(offsetUm)}`, 'end'),
  ]
}

/** The scale at which both modes and the gap fill the picture; of a lensed fibre also the mode behind its tip. */
function gapScale({ joint, near, far }: JointView): Scale {
  const across = 2 * Math.max(near.mfdXUm, near.mfdYUm, far.mfdXUm, far.mfdYUm)
  const behindTip = TIP_MARGIN * Math.max(near.tip?.modeMfdXUm ?? 0, near.tip?.modeMfdYUm ?? 0)
  const offset = 2 * Math.max(Math.abs(joint.offsetXUm), Math.abs(joint.offsetYUm))
  const tall = Math.max(1.3 * across, behindTip) + offset
  return {
    pxPerUm: fittedPxPerUm(joint.gapUm + 2 * across, tall, SHEET_WIDTH_PX, VIEW_PX),
    middleXPx: SHEET_WIDTH_PX / 2,
    middleYPx: VIEW_PX / 2,
    centreZUm: -joint.gapUm / 2,
  }
}

/** A part at a joint: a lensed fibre by its tip, whose mode is a spot. */
interface JointPart {
  readonly name: string
  readonly size: 'MFD' | 'spot'
}

/** The parts on both sides. */
interface JointParts {
  readonly near: JointPart
  readonly far: JointPart
}

function jointParts(project: Project, { chain }: Candidate, elementId: string): JointParts {
  const at = chain.findIndex(({ id }) => id === elementId)
  const partAt = (position: number): JointPart => {
    const element = chain[position]
    const tip =
      element?.kind === 'fibre' || element?.kind === 'stub'
        ? byId(project.converters, element.tipId)
        : undefined
    if (tip !== undefined) return { name: tip.name, size: 'spot' }
    return { name: element === undefined ? '' : partName(project, element), size: 'MFD' }
  }
  return { near: partAt(at - 1), far: partAt(at + 1) }
}

/** Name and MFD of the parts on both sides, in the plane of the view. The chip's is below its surface where that would run through it. */
function partLabels(
  { near, far }: JointParts,
  joint: JointView,
  axis: 'x' | 'y',
  surfacePx: number,
): readonly Markup[] {
  const said = ({ name, size }: JointPart, mfdUm: number, elliptical: boolean) =>
    `${fittedText(name, NAME_PX)}, ${size}${elliptical ? ` ${axis}` : ''} ${um(mfdUm)}`
  const of = (port: JointView['near'], part: JointPart) =>
    said(part, axis === 'x' ? port.mfdXUm : port.mfdYUm, port.mfdXUm !== port.mfdYUm)
  return [
    label(10, VIEW_PX - 10, of(joint.near, near), 'start'),
    label(
      SHEET_WIDTH_PX - 10,
      surfacePx > 0 && surfacePx < NAME_TALL_PX ? surfacePx + NAME_BASE_PX : NAME_BASE_PX,
      of(joint.far, far),
      'end',
    ),
  ]
}

function gapFigure(
  id: string,
  name: string,
  joint: JointView,
  parts: JointBodies,
  names: JointParts,
): Figure<Drawing> {
  const scale = gapScale(joint)
  const { gapUm, offsetXUm, offsetYUm } = joint.joint
  const views = (['y', 'x'] as const).map((axis, i) => {
    const plane = jointPlane(joint, parts, axis)
    const surfacePx = axis === 'y' ? transversePx(scale, parts.depthUm) : 0
    return sheetView(axis, i * (VIEW_PX + APART_PX), VIEW_PX, [
      ...jointShapes({ axis, view: joint, plane, parts, scale, widthPx: SHEET_WIDTH_PX }),
      ...partLabels(names, joint, axis, surfacePx),
      ...dimensions(gapUm, axis === 'x' ? offsetXUm : offsetYUm, axis, plane, scale),
      ...bar(scale.pxPerUm, VIEW_PX),
    ])
  })
  const modes = [
    ['Fibre-side mode, MFD x', joint.near.mfdXUm],
    ['Fibre-side mode, MFD y', joint.near.mfdYUm],
    ['Chip-side mode, MFD x', joint.far.mfdXUm],
    ['Chip-side mode, MFD y', joint.far.mfdYUm],
    ['Gap', gapUm],
    ['Offset x', offsetXUm],
    ['Offset y', offsetYUm],
  ] as const
  return {
    id: `section-${id}`,
    sentence: `${name}, to scale: 1/e² envelope of the beam shaded, that of the receiving mode dashed.`,
    picture: drawn(2 * VIEW_PX + APART_PX, views),
    table: { columns: [{ label: 'Dimension' }, { label: 'Value', unit: 'µm', digits: 3 }], rows: modes },
  }
}

function relayFigure(id: string, name: string, relay: RelayView): Figure<Drawing> {
  const planes = (['y', 'x'] as const).map((axis) =>
    relayPlane(relay, axis, {
      widthPx: SHEET_WIDTH_PX,
      heightPx: RELAY_PX,
      marginPx: MARGIN_PX,
      topPx: 0,
      edgePx: 20,
    }),
  )
  const views = planes.map((plane, i) =>
    sheetView(plane.axis, i * (RELAY_PX + APART_PX), RELAY_PX, [
      ...relayShapes(relay, plane),
      ...bar(plane.pxPerUm, RELAY_PX),
    ]),
  )
  const [lens1, lens2] = relay.lenses
  return {
    id: `section-${id}`,
    sentence: `${name}, to scale: magnification ${fixedText(relay.magnification, 2)}, collimated beam ${fixedText(relay.collimatedMfdUm, 0)} µm.`,
    picture: drawn(2 * RELAY_PX + APART_PX, views),
    table: {
      columns: [{ label: 'Distance' }, { label: 'Value', unit: 'µm', digits: 2 }],
      rows: [
        ['Fibre face to lens 1', lens1.frontZUm],
        ['Collimated section', relay.stretchUm],
        ['Lens 2 to facet', relay.lengthUm - lens2.frontZUm - lens2.thicknessUm],
      ],
    },
  }
}

/** A figure for every gap and relay of the candidate's chain, along the path. */
export function jointDrawings(
  project: Project,
  candidate: Candidate,
  evaluation: Pick<Evaluation, 'joints' | 'relays'>,
): readonly Figure<Drawing>[] {
  const relays = new Map(evaluation.relays.map((relay) => [relay.elementId, relay]))
  return evaluation.joints.flatMap((joint, i): readonly Figure<Drawing>[] => {
    const name = `${evaluation.joints.length === 1 ? 'Joint' : `Joint ${i + 1}`} of ${candidate.name}`
    const relay = relays.get(joint.elementId)
    if (relay !== undefined) return [relayFigure(joint.elementId, name, relay)]
    const parts = jointBodies(project, candidate, joint)
    return parts === null
      ? []
      : [gapFigure(joint.elementId, name, joint, parts, jointParts(project, candidate, joint.elementId))]
  })
}
