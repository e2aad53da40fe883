// A relay to scale, side view over top view: lenses, device, the beam's 1/e² edges and its chief ray.
// Distances are editable in place; the same numbers are in the table of the relay.

import type { RelayView } from '../../analysis/results/evaluation'
import type { FaceReflection } from '../../analysis/results/lightResults'
import { relayPlane, relayShapes } from '../../figures/drawing/relayShapes'
import { px } from '../../figures/render/svgShapes'
import { type JointName, ofJoint } from '../../model/designs/jointNames'
import type { RuleName } from '../../model/quantity/quantityRules'
import { rewriteQuantity } from '../../model/quantity/rewriteQuantity'
import type { RelayElement } from '../../model/schema/candidate'
import { fixedText } from '../../numerics/numberText'
import { findElement } from '../../store/elementEdits'
import { editProject } from '../../store/workbench'
import { Pane } from '../../ui/controls/Panes'
import { MarkupView } from '../../ui/figures/MarkupView'
import { typeScale } from '../../ui/figures/typeScale'
import { useSize } from '../../ui/figures/useSize'
import { DimensionInput } from './DimensionInput'
import { lightNumbersPx, RelayLight } from './RelayLight'
import './drawing.css'

const APART_PX = 6
const MARGIN_PX = 90
const DIMENSION_PX = 16
const LINE_PX = 32
const TICK_PX = 4
/** Between the middles of two numbers, each as long as `997.42 µm`. */
const APART_NUMBERS_PX = 84

const DISTANCES = [
  { field: 'frontGap', label: 'Fibre face to lens 1', rule: 'gap' },
  { field: 'stretch', label: 'Collimated section', rule: 'stretch' },
  { field: 'backGap', label: 'Lens 2 to facet', rule: 'gap' },
] as const satisfies readonly {
  readonly field: 'frontGap' | 'stretch' | 'backGap'
  readonly label: string
  readonly rule: RuleName
}[]

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
  const tick = (at: number) => `M${px(at)} ${LINE_PX - TICK_PX}v${2 * TICK_PX}`
  return ends
    .map(([from, to]) => `M${px(z(from))} ${LINE_PX}H${px(z(to))}${tick(z(from))}${tick(z(to))}`)
    .join('')
}

/** Pixel places of the numbers: at the middle of what they measure, but never over each other. */
function numberPositions(view: RelayView, z: (um: number) => number, widthPx: number): readonly number[] {
  const [front, stretch, back] = middles(view).map(z)
  const apart = APART_NUMBERS_PX * typeScale()
  const middle = stretch ?? widthPx / 2
  return [
    Math.max(60, Math.min(front ?? 0, middle - apart)),
    middle,
    Math.min(widthPx - 60, Math.max(back ?? widthPx, middle + apart)),
  ]
}

export function RelayDrawing({
  relay,
  view,
  candidateId,
  name,
  reflections,
}: {
  readonly relay: RelayElement
  readonly view: RelayView
  readonly candidateId: string
  readonly name: JointName | undefined
  readonly reflections: readonly FaceReflection[]
}) {
  const [holder, paneSize] = useSize()
  const { widthPx } = paneSize
  const heightPx = Math.max(0, (paneSize.heightPx - APART_PX) / 2)
  const plane = (axis: 'x' | 'y') => {
    const fitted = relayPlane(view, axis, {
      widthPx,
      heightPx,
      marginPx: Math.min(MARGIN_PX, widthPx / 10),
      topPx: LINE_PX,
      edgePx: Math.min(DIMENSION_PX, heightPx / 10),
    })
    return {
      ...fitted,
      numbersPx: axis === 'y' ? LINE_PX + TICK_PX : lightNumbersPx(fitted),
    }
  }
  const { z } = plane('y')
  const positions = numberPositions(view, z, widthPx)
  const facts = `magnification ${fixedText(view.magnification, 2)}, collimated beam ${fixedText(view.collimatedMfdUm, 0)} µm (1/e²), Rayleigh range ${fixedText(view.collimatedRayleighUm / 1000, 1)} mm`
  return (
    <Pane
      name="Drawing"
      title={
        <>
          {ofJoint('Two-lens relay, to scale', name)}; {facts}
        </>
      }
    >
      <div className="drawing-views" data-beside="false" ref={holder}>
        {widthPx > 0 &&
          heightPx > 0 &&
          (['y', 'x'] as const).map((axis) => (
            <div key={axis} className="drawing-sheet" style={{ inlineSize: widthPx, blockSize: heightPx }}>
              <svg
                viewBox={`0 0 ${widthPx} ${heightPx}`}
                width={widthPx}
                height={heightPx}
                role="img"
                aria-label={`${axis === 'y' ? 'Side' : 'Top'} view of the relay, ${fixedText(view.lengthUm / 1000, 2)} mm from end face to end face`}
              >
                <MarkupView nodes={relayShapes(view, plane(axis))} />
                {axis === 'x' && <RelayLight view={view} plane={plane(axis)} reflections={reflections} />}
                {axis === 'y' && <path className="drawn-dimension-line" d={dimensionLines(view, z)} />}
              </svg>
              {axis === 'y' &&
                DISTANCES.map(({ field, label, rule }, i) => (
                  <span
                    key={field}
                    className="dimension-position"
                    style={{ insetInlineStart: positions[i] ?? 0, insetBlockStart: DIMENSION_PX }}
                  >
                    <DimensionInput
                      label={`${label}, on the drawing`}
                      quantity={relay[field]}
                      ruleName={rule}
                      onWrite={(read) =>
                        editProject((draft) => {
                          const own = findElement(draft, candidateId, relay.id, 'relay')?.[field]
                          if (own !== undefined) rewriteQuantity(own, read)
                        })
                      }
                    />
                  </span>
                ))}
            </div>
          ))}
      </div>
    </Pane>
  )
}
