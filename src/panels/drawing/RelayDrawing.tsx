// A relay to scale, side view over top view: lenses, device, the beam's 1/e² edges and its chief ray.
// Distances are editable in place; the same numbers stand in the table of the relay.

import type { LensView, RelayView } from '../../analysis/evaluation'
import type { RelayElement } from '../../model/candidate'
import { type JointName, ofJoint } from '../../model/jointNames'
import type { RuleName } from '../../model/quantityRules'
import { editProject } from '../../store/workbench'
import { findElement } from '../candidate/elementEdits'
import { DimensionInput } from './DimensionInput'
import './drawing.css'

const WIDTH_PX = 960
const HEIGHT_PX = 200
const MARGIN_PX = 90
const DIMENSION_PX = 24
const LINE_PX = 42
const TICK_PX = 4
const BODY_LEAST_PX = 6
const ARC_STEPS = 16
const FIBRE_UM = 125

const DISTANCES = [
  { field: 'frontGap', label: 'End face to lens 1', rule: 'gap' },
  { field: 'stretch', label: 'Collimated stretch', rule: 'stretch' },
  { field: 'backGap', label: 'Lens 2 to end face', rule: 'gap' },
] as const satisfies readonly {
  readonly field: 'frontGap' | 'stretch' | 'backGap'
  readonly label: string
  readonly rule: RuleName
}[]

interface Plane {
  readonly axis: 'x' | 'y'
  readonly z: (um: number) => number
  readonly v: (um: number) => number
  readonly pxPerUm: number
}

/** Depth of a face below its pole at half the aperture, um; 0 for a flat face. */
function sag(radiusUm: number, halfUm: number): number {
  if (!Number.isFinite(radiusUm)) return 0
  const reach = Math.min(halfUm, radiusUm)
  return radiusUm - Math.sqrt(radiusUm * radiusUm - reach * reach)
}

function lensPath(lens: LensView, { axis, z, v }: Plane): string {
  const half = lens.apertureDiameterUm / 2
  const middle = axis === 'x' ? lens.offsetXUm : lens.offsetYUm
  const face = (radiusUm: number, poleUm: number, bulge: 1 | -1) =>
    Array.from({ length: ARC_STEPS + 1 }, (_, i) => {
      const height = half * ((2 * i) / ARC_STEPS - 1)
      const at = poleUm + bulge * sag(radiusUm, Math.abs(height))
      return `${z(at).toFixed(1)},${v(middle + height).toFixed(1)}`
    })
  const front = face(lens.frontRadiusUm, lens.frontZUm, 1)
  const back = face(lens.backRadiusUm, lens.frontZUm + lens.thicknessUm, -1)
  return [...front, ...back.toReversed()].join(' ')
}

function SectionOf({ view, plane }: { readonly view: RelayView; readonly plane: Plane }) {
  const { axis, z, v, pxPerUm } = plane
  const inX = axis === 'x'
  const radius = (at: RelayView['path'][number]) => (inX ? at.radiusXUm : at.radiusYUm)
  const chief = (at: RelayView['path'][number]) => (inX ? at.chiefXUm : at.chiefYUm)
  const edge = (side: 1 | -1) =>
    view.path.map((at) => `${z(at.zUm).toFixed(2)},${v(chief(at) + side * radius(at)).toFixed(2)}`)
  const start = view.path[0]
  const fibrePx = Math.max(BODY_LEAST_PX, FIBRE_UM * pxPerUm)
  const { device } = view
  return (
    <>
      <rect
        className="drawn-body"
        x={0}
        y={v(start === undefined ? 0 : chief(start)) - fibrePx / 2}
        width={z(0)}
        height={fibrePx}
      />
      <rect
        className="drawn-body"
        x={z(view.lengthUm)}
        y={v(0) - fibrePx}
        width={WIDTH_PX - z(view.lengthUm)}
        height={3 * fibrePx}
      />
      {view.lenses.map((lens) => (
        <polygon key={lens.frontZUm} className="drawn-lens" points={lensPath(lens, plane)} />
      ))}
      {device !== null && (
        <g className="drawn-device">
          <rect
            x={z(device.startZUm)}
            y={v(device.apertureDiameterUm / 2)}
            width={device.lengthUm * pxPerUm}
            height={device.apertureDiameterUm * pxPerUm}
          />
          <text x={z(device.startZUm + device.lengthUm / 2)} y={HEIGHT_PX - 10} textAnchor="middle">
            {device.name}
          </text>
        </g>
      )}
      <polygon className="drawn-beam" points={[...edge(1), ...edge(-1).toReversed()].join(' ')} />
      <polyline
        className="drawn-axis"
        fill="none"
        points={view.path.map((at) => `${z(at.zUm).toFixed(2)},${v(chief(at)).toFixed(2)}`).join(' ')}
      />
      <line className="drawn-axis" x1={0} x2={WIDTH_PX} y1={v(0)} y2={v(0)} />
      <text className="drawn-label drawn-low" x={10} y={HEIGHT_PX - 4}>
        {inX ? 'Top view, x over z' : 'Side view, y over z'}
      </text>
    </>
  )
}

/** Middles of the three distances along z, um. */
function middles(view: RelayView): readonly [number, number, number] {
  const [lens1, lens2] = view.lenses
  const stretchStart = lens1.frontZUm + lens1.thicknessUm
  const lens2End = lens2.frontZUm + lens2.thicknessUm
  return [lens1.frontZUm / 2, (stretchStart + lens2.frontZUm) / 2, (lens2End + view.lengthUm) / 2]
}

/** Lines with ticks at both ends over the three distances, below their numbers. */
function dimensionLines(view: RelayView, z: (um: number) => number): string {
  const [lens1, lens2] = view.lenses
  const ends = [
    [0, lens1.frontZUm],
    [lens1.frontZUm + lens1.thicknessUm, lens2.frontZUm],
    [lens2.frontZUm + lens2.thicknessUm, view.lengthUm],
  ] as const
  const tick = (px: number) => `M${px.toFixed(1)} ${LINE_PX - TICK_PX}v${2 * TICK_PX}`
  return ends
    .map(
      ([from, to]) => `M${z(from).toFixed(1)} ${LINE_PX}H${z(to).toFixed(1)}${tick(z(from))}${tick(z(to))}`,
    )
    .join('')
}

/** Pixel places of the numbers: at the middle of what they measure, but never over each other. */
function numberPlaces(view: RelayView, z: (um: number) => number): readonly number[] {
  const [front, stretch, back] = middles(view).map(z)
  const apart = 130
  const middle = stretch ?? WIDTH_PX / 2
  return [
    Math.max(60, Math.min(front ?? 0, middle - apart)),
    middle,
    Math.min(WIDTH_PX - 60, Math.max(back ?? WIDTH_PX, middle + apart)),
  ]
}

export function RelayDrawing({
  relay,
  view,
  candidateId,
  name,
}: {
  readonly relay: RelayElement
  readonly view: RelayView
  readonly candidateId: string
  readonly name: JointName | undefined
}) {
  const tallUm = 1.1 * Math.max(...view.lenses.map((lens) => lens.apertureDiameterUm), FIBRE_UM * 3)
  const pxPerUm = Math.min(
    (WIDTH_PX - 2 * MARGIN_PX) / view.lengthUm,
    (HEIGHT_PX - LINE_PX - 2 * DIMENSION_PX) / tallUm,
  )
  const leftPx = (WIDTH_PX - view.lengthUm * pxPerUm) / 2
  const z = (um: number) => leftPx + um * pxPerUm
  const v = (um: number) => (HEIGHT_PX + LINE_PX - DIMENSION_PX) / 2 - um * pxPerUm
  const places = numberPlaces(view, z)
  return (
    <figure className="cross-section">
      <figcaption>
        <span>
          {ofJoint('Relay, to scale', name)} <span className="quiet drawing-between">{name?.between}</span>
        </span>
        <span className="quiet drawing-between">
          {`magnification ${view.magnification.toFixed(2)}, parallel beam ${view.collimatedMfdUm.toFixed(0)} µm, Rayleigh range ${(view.collimatedRayleighUm / 1000).toFixed(1)} mm`}
        </span>
      </figcaption>
      {(['y', 'x'] as const).map((axis) => (
        <div key={axis} className="section-sheet">
          <svg
            viewBox={`0 0 ${WIDTH_PX} ${HEIGHT_PX}`}
            role="img"
            aria-label={`${axis === 'y' ? 'Side' : 'Top'} view of the relay, ${(view.lengthUm / 1000).toFixed(2)} mm from end face to end face`}
          >
            <SectionOf view={view} plane={{ axis, z, v, pxPerUm }} />
            {axis === 'y' && <path className="drawn-dimension-line" d={dimensionLines(view, z)} />}
          </svg>
          {axis === 'y' &&
            DISTANCES.map(({ field, label, rule }, i) => (
              <span
                key={field}
                className="dimension-place"
                style={{
                  insetInlineStart: `${(100 * (places[i] ?? 0)) / WIDTH_PX}%`,
                  insetBlockStart: `${(100 * DIMENSION_PX) / HEIGHT_PX}%`,
                }}
              >
                <DimensionInput
                  label={`${label}, on the drawing`}
                  quantity={relay[field]}
                  ruleName={rule}
                  onWrite={(read) =>
                    editProject((draft) => {
                      const own = findElement(draft, candidateId, relay.id, 'relay')?.[field]
                      if (own === undefined) return
                      own.value = read.value
                      own.unit = read.unit
                      own.typed = read.typed
                    })
                  }
                />
              </span>
            ))}
        </div>
      ))}
    </figure>
  )
}
