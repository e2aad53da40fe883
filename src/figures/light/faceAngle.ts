// Return loss of an end face against its angle, for the modes on both sides, with the requirement and the limit of trust.

import type { FaceAngleCurve, FaceAngleSide } from '../../analysis/light/faceAngleCurve'
import { fixedText } from '../../numerics/numberText'
import { along } from '../axes'
import { type Chart, chart, type Series } from '../chart'
import type { Figure } from '../figure'

const DEG = 180 / Math.PI
/** Margin above the reliable range, dB. */
const HEADROOM_DB = 5
const LOOKS = {
  near: { name: 'fibre-side mode', tone: 'accent', dash: 'solid' },
  far: { name: 'chip-side mode', tone: 'ink', dash: 'dash' },
} as const
/** The usual angle of angled end faces: IEC 61755-3-2 (from memory). */
const USUAL_DEG = 8

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1)

export function faceAngleFigure(curve: FaceAngleCurve): Figure<Chart> {
  const x = Float64Array.from(curve.anglesRad, (angle) => angle * DEG)
  const { trustDb } = curve
  const topDb = trustDb + HEADROOM_DB
  const capped = (db: number) => Math.min(db, topDb)
  const shown = (db: number) => (db > trustDb ? `> ${trustDb} dB` : `${fixedText(db, 1)} dB`)
  const nameOf = (side: FaceAngleSide) => `${LOOKS[side.side].name}, ${fixedText(side.mfdUm, 1)} µm`
  const sideText = (side: FaceAngleSide, i: number) => {
    const words = LOOKS[side.side].name
    const name = `${i === 0 ? capital(words) : words} ${fixedText(side.mfdUm, 1)} µm`
    const now = `${shown(side.nowDb)} at ${fixedText(side.nowRad * DEG, 1)}°`
    const isUsual = Math.abs(side.nowRad * DEG - USUAL_DEG) < 0.05
    return isUsual ? `${name}: ${now}` : `${name}: ${now}, ${shown(side.usualDb)} at ${USUAL_DEG}°`
  }
  return {
    id: 'face-angle',
    sentence: `${curve.sides.map(sideText).join('; ')}.`,
    picture: chart(
      along('Face angle', '°', x, 1),
      { title: 'Return loss of the face', unit: 'dB', from: 0, to: topDb, digits: 1 },
      [
        { kind: 'rule', axis: 'y', at: curve.wantedDb, label: curve.isRequired ? 'required' : 'reference' },
        { kind: 'rule', axis: 'y', at: trustDb, label: 'scatter limit', dash: 'dot' },
        ...curve.sides.flatMap((side): readonly Series[] => [
          {
            kind: 'line',
            name: nameOf(side),
            x,
            y: Float64Array.from(side.lossesDb, capped),
            tone: LOOKS[side.side].tone,
            dash: LOOKS[side.side].dash,
          },
          {
            kind: 'points',
            name: '',
            unread: true,
            x: [side.nowRad * DEG],
            y: [capped(side.nowDb)],
            tone: LOOKS[side.side].tone,
            mark: 'cross',
            sizePx: 11,
          },
        ]),
      ],
    ),
    table: {
      columns: [
        { label: 'Angle', unit: '°' },
        ...curve.sides.map((side) => ({ label: LOOKS[side.side].name, unit: 'dB' })),
      ],
      rows: Array.from(x, (angle, i) => [
        angle,
        ...curve.sides.map((side) => {
          const db = side.lossesDb[i] ?? 0
          return db > trustDb ? `> ${trustDb}` : db
        }),
      ]),
    },
  }
}
