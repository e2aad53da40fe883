// One to-scale section through the joint: the side view (y over z) or the top view (x over z).

import type { JointView } from '../../analysis/evaluation'
import { envelopeOutline } from './envelope'
import { type Scale, transversePx, zPx } from './scale'

export interface SectionParts {
  readonly claddingDiameterUm: number
  readonly guideWidthUm: number
  readonly guideHeightUm: number
  readonly depthUm: number
}

export interface SectionViewProps {
  readonly axis: 'x' | 'y'
  readonly view: JointView
  readonly parts: SectionParts
  readonly scale: Scale
  readonly widthPx: number
  readonly heightPx: number
}

/** The chip reaches this far below and beside its waveguide in the drawing. */
const CHIP_HALF_UM = 400
const GUIDE_LEAST_PX = 1.5

export function SectionView({ axis, view, parts, scale, widthPx, heightPx }: SectionViewProps) {
  const { joint } = view
  const inX = axis === 'x'
  const offsetUm = inX ? joint.offsetXUm : joint.offsetYUm
  const z = (um: number) => zPx(scale, um)
  const t = (um: number) => transversePx(scale, um)
  const facePx = z(-joint.gapUm)
  const chipPx = z(0)
  const claddingTopPx = t(offsetUm + parts.claddingDiameterUm / 2)
  const claddingPx = parts.claddingDiameterUm * scale.pxPerUm
  const nearMfdUm = inX ? view.near.mfdXUm : view.near.mfdYUm
  const farMfdUm = inX ? view.far.mfdXUm : view.far.mfdYUm
  const chipTopUm = inX ? CHIP_HALF_UM : parts.depthUm
  const guidePx = Math.max(GUIDE_LEAST_PX, (inX ? parts.guideWidthUm : parts.guideHeightUm) * scale.pxPerUm)
  const outline = envelopeOutline(joint, axis)
    .map((point) => `${z(point.zUm).toFixed(2)},${t(point.vUm).toFixed(2)}`)
    .join(' ')
  return (
    <>
      <g className="drawn-fibre" data-drag="fibre">
        <rect x={0} y={claddingTopPx} width={Math.max(0, facePx)} height={claddingPx} />
        <line x1={0} x2={facePx} y1={t(offsetUm + nearMfdUm / 2)} y2={t(offsetUm + nearMfdUm / 2)} />
        <line x1={0} x2={facePx} y1={t(offsetUm - nearMfdUm / 2)} y2={t(offsetUm - nearMfdUm / 2)} />
      </g>
      <g className="drawn-chip">
        <rect
          x={chipPx}
          y={t(chipTopUm)}
          width={Math.max(0, widthPx - chipPx)}
          height={(chipTopUm + CHIP_HALF_UM) * scale.pxPerUm}
        />
        <line x1={chipPx} x2={widthPx} y1={t(farMfdUm / 2)} y2={t(farMfdUm / 2)} />
        <line x1={chipPx} x2={widthPx} y1={t(-farMfdUm / 2)} y2={t(-farMfdUm / 2)} />
        <rect
          className="drawn-guide"
          x={chipPx}
          y={t(0) - guidePx / 2}
          width={Math.max(0, widthPx - chipPx)}
          height={guidePx}
        />
      </g>
      <polygon className="drawn-beam" points={outline} />
      <line className="drawn-axis" x1={0} x2={widthPx} y1={t(0)} y2={t(0)} />
      <text className="drawn-label" x={10} y={18}>
        {inX ? 'Top view, x over z' : 'Side view, y over z'}
      </text>
      <text className="drawn-label" x={10} y={heightPx - 10}>
        {`${inX ? 'x' : 'y'} offset ${offsetUm.toFixed(2)} µm`}
      </text>
    </>
  )
}
