// One joint on the page of all joints: a row for every scenario, a column for every step of the closed form.

import type { CompiledCandidate } from '../../analysis/path/compileCandidate'
import type { JoinModel } from '../../analysis/path/vector/elementModels'
import type { JointView } from '../../analysis/results/evaluation'
import { RULES } from '../../model/quantity/quantityRules'
import type { GapElement } from '../../model/schema/candidate'
import { type GaussianJoint, JOINT_FIELDS } from '../../optics/index'
import type { InputTable, InputTerm, Range } from './inputTable'
import {
  alignedOffsets,
  alignsInClosedForm,
  type FaceTerms,
  faceLossTerm,
  faceTerms,
  type JointTerms,
  jointLossTerm,
  type Put,
} from './jointFormulas'
import { type Read, type Scenario, slotOfNumber } from './liveInputs'
import type { PageWriter } from './page'
import { differenceTerm, type FormulaTerm, literal, most, productTerm, sumTerm } from './term'

export interface LiveJoint {
  /** From 1, along the path. */
  readonly number: number
  readonly join: JoinModel
  readonly element: GapElement
  readonly view: JointView
  readonly nearFaceLossDb: Read
  readonly farFaceLossDb: Read
}

export const JOINT_PARTS = ['mode mismatch', 'gap', 'lateral offset', 'tilt', 'roll'] as const
type JointPart = (typeof JOINT_PARTS)[number]

/** The fields that a part leaves as they are; all other misalignment is removed. */
const KEPT: Readonly<Record<JointPart, readonly (keyof GaussianJoint)[]>> = {
  'mode mismatch': [],
  gap: ['gapUm', 'waistXUm', 'waistYUm'],
  'lateral offset': ['offsetXUm', 'offsetYUm'],
  tilt: ['tiltXRad', 'tiltYRad'],
  roll: ['rollRad'],
}
const MISALIGNMENT: ReadonlySet<keyof GaussianJoint> = new Set(Object.values(KEPT).flat())

export interface JointLosses {
  /** Of the joint alone, at nominal values, with one kind of misalignment left. */
  readonly part: (part: JointPart) => FormulaTerm
  readonly joint: FormulaTerm
  readonly nearFace: FormulaTerm
  readonly farFace: FormulaTerm
  /** Of joint and faces, by scenario. */
  readonly whole: readonly FormulaTerm[]
  /** Rows that it takes, and the widths of its columns. */
  readonly height: number
  readonly widths: readonly number[]
}

const INDEX: Range = [RULES.index.minCore, RULES.index.maxCore]
const MFD: Range = [RULES.mfd.minCore, RULES.mfd.maxCore]
const WAIST: Range = [-RULES.gap.maxCore, RULES.gap.maxCore]

/** Whether the pose that alignment leaves follows the inputs. */
export const followsAligning = ({ element }: LiveJoint): boolean => alignsInClosedForm(element.aligned ?? [])

/** Reads of the chain that the formulas start from. */
function inputsOf(live: LiveJoint, compiled: CompiledCandidate, inputs: InputTable) {
  const { join, view } = live
  const viewed = (read: (view: JointView) => number): Read => {
    return (values) => (join.view === null ? Number.NaN : read(join.view(values)))
  }
  const number = (
    label: string,
    unit: string,
    read: (view: JointView) => number,
    [least, most]: Range,
  ): InputTerm => {
    const slot = slotOfNumber(compiled, viewed(read))
    return slot === null ? inputs.computed(label, unit, viewed(read), [least, most]) : inputs.quantity(slot)
  }
  const pose = (...field: string[]): InputTerm | null => {
    const path = [...view.path, ...field].join('/')
    const slot = compiled.variables.findIndex((variable) => variable.path.join('/') === path)
    return slot < 0 ? null : inputs.quantity(slot)
  }
  const placed = (field: keyof GapElement & string): InputTerm => pose(field) ?? (() => literal(0))
  const at = `, joint ${live.number}`
  const through = (side: string, lossDb: Read) =>
    inputs.computed(
      `transmission of the ${side} face${at}`,
      '',
      (values) => 10 ** (-lossDb(values) / 10),
      [0, 1],
    )
  return {
    // Indices, modes and fields belong to a wavelength: none of them would follow another.
    wavelengthUm: inputs.shown(
      'wavelength',
      'µm',
      viewed(({ joint }) => joint.wavelengthUm),
      'not an input: mode diameters and indices are valid at this wavelength only; change it in the app',
    ),
    mediumIndex: number(`index of the medium${at}`, '', ({ joint }) => joint.index, INDEX),
    nearIndex: number(`index of the fibre-side waveguide${at}`, '', ({ near }) => near.index, INDEX),
    farIndex: number(`index of the chip-side waveguide${at}`, '', ({ far }) => far.index, INDEX),
    nearX: number(`fibre-side MFD x${at}`, 'µm', ({ near }) => near.mfdXUm, MFD),
    nearY: number(`fibre-side MFD y${at}`, 'µm', ({ near }) => near.mfdYUm, MFD),
    farX: number(`chip-side MFD x${at}`, 'µm', ({ far }) => far.mfdXUm, MFD),
    farY: number(`chip-side MFD y${at}`, 'µm', ({ far }) => far.mfdYUm, MFD),
    waistX: number(`fibre-side waist x${at}`, 'µm', ({ near }) => near.waistXUm, WAIST),
    waistY: number(`fibre-side waist y${at}`, 'µm', ({ near }) => near.waistYUm, WAIST),
    gap: placed('gap'),
    offsetX: placed('offsetX'),
    offsetY: placed('offsetY'),
    tiltX: placed('tiltX'),
    tiltY: placed('tiltY'),
    roll: placed('roll'),
    nearAngle: placed('nearFaceAngle'),
    farAngle: placed('farFaceAngle'),
    // A coating has no closed form in cells: the transmission of its face is written as a number.
    nearThrough: live.element.nearCoating === undefined ? null : through('fibre-side', live.nearFaceLossDb),
    farThrough: live.element.farCoating === undefined ? null : through('chip-side', live.farFaceLossDb),
    bondX: pose('bondShift', 'x'),
    bondY: pose('bondShift', 'y'),
    bondZ: pose('bondShift', 'z'),
  }
}

type Inputs = ReturnType<typeof inputsOf>

/** The joint at a scenario from the inputs, as analysis/path/gap/gapValues.ts assembles it. */
function assembled(
  put: Put,
  scenario: Scenario,
  inputs: Inputs,
  live: LiveJoint,
  turned: FormulaTerm | null,
) {
  const { element, join } = live
  const read = (title: string, input: InputTerm) => put(title, input(scenario))
  const index = read('index of the medium', inputs.mediumIndex)
  const near = faceTerms(
    put,
    'fibre-side',
    read('fibre-side index', inputs.nearIndex),
    index,
    read('fibre-side face angle, rad', inputs.nearAngle),
  )
  const far = faceTerms(
    put,
    'chip-side',
    read('chip-side index', inputs.farIndex),
    index,
    read('chip-side face angle, rad', inputs.farAngle),
  )
  const carried = (face: FaceTerms, side: string, input: InputTerm | null): FaceTerms =>
    input === null
      ? face
      : { ...face, transmission: read(`${side} face, transmission with its coating`, input) }
  const inX = element.facePlane === 'x'
  const slopes = differenceTerm(near.slopeRad, far.slopeRad)
  // The guides are turned once, for the nominal faces; what other faces and indices add is a tilt.
  const pointing =
    element.pointing === 'refracted' ? (turned ?? differenceTerm(far.slopeRad, near.slopeRad)) : literal(0)
  const leftover = put('residual slope, rad', sumTerm(pointing, slopes))
  const wide = (title: string, mfd: InputTerm, scale: FormulaTerm | null) =>
    put(title, scale === null ? mfd(scenario) : productTerm(mfd(scenario), scale))
  const joint: JointTerms = {
    wavelengthUm: read('wavelength, µm', inputs.wavelengthUm),
    index,
    emitterMfdXUm: wide('emitter MFD x, µm', inputs.nearX, inX ? near.widthScale : null),
    emitterMfdYUm: wide('emitter MFD y, µm', inputs.nearY, inX ? null : near.widthScale),
    receiverMfdXUm: wide('receiver MFD x, µm', inputs.farX, inX ? far.widthScale : null),
    receiverMfdYUm: wide('receiver MFD y, µm', inputs.farY, inX ? null : far.widthScale),
    offsetXUm: inputs.offsetX(scenario),
    offsetYUm: inputs.offsetY(scenario),
    gapUm: inputs.gap(scenario),
    tiltXRad: put('tilt x, rad', inX ? sumTerm(inputs.tiltX(scenario), leftover) : inputs.tiltX(scenario)),
    tiltYRad: put('tilt y, rad', inX ? inputs.tiltY(scenario) : sumTerm(inputs.tiltY(scenario), leftover)),
    rollRad: read('roll, rad', inputs.roll),
    waistXUm: read('waist x, µm', inputs.waistX),
    waistYUm: read('waist y, µm', inputs.waistY),
  }
  const faces = {
    near: carried(near, 'fibre-side', inputs.nearThrough),
    far: carried(far, 'chip-side', inputs.farThrough),
  }
  const closed = followsAligning(live)
  const view = join.view?.(scenario.values)
  if (!closed && view !== undefined) return { joint: carriedPose(put, joint, view.joint), ...faces }
  const aligned = alignedOffsets(put, element.aligned ?? [], joint)
  const moved = (title: string, from: FormulaTerm, by: InputTerm | null) =>
    put(title, by === null ? from : sumTerm(from, by(scenario)))
  return {
    joint: {
      ...joint,
      offsetXUm: moved('offset x, µm', aligned.x, inputs.bondX),
      offsetYUm: moved('offset y, µm', aligned.y, inputs.bondY),
      gapUm: put('gap, µm', most(literal(0), moved('gap before contact, µm', joint.gapUm, inputs.bondZ))),
    },
    ...faces,
  }
}

/** A pose whose alignment has no closed form is written as the numbers that the app found. */
function carriedPose(put: Put, joint: JointTerms, found: GaussianJoint): JointTerms {
  const carry = (title: string, value: number) => put(`${title} (fixed value)`, literal(value))
  return {
    ...joint,
    offsetXUm: carry('offset x, µm', found.offsetXUm),
    offsetYUm: carry('offset y, µm', found.offsetYUm),
    gapUm: carry('gap, µm', found.gapUm),
    tiltXRad: carry('tilt x, rad', found.tiltXRad),
    tiltYRad: carry('tilt y, rad', found.tiltYRad),
  }
}

const FIRST_ROW = 2

/** Puts steps into the column of their title, opening a column at the first. */
function rowWriter(writer: PageWriter, titles: string[], row: number): Put {
  return (title, term) => {
    let column = titles.indexOf(title)
    if (column < 0) {
      column = titles.length
      titles.push(title)
      writer.text(1, column, title, 'head')
    }
    return writer.formula(row, column, term)
  }
}

/** The results come first, so that paper has them next to the scenarios. */
const FIRST_TITLES = ['Scenario', 'coupling and face losses, dB', 'coupling loss, dB'] as const

/** Writes a joint from row 0 of the writer on; `all` begins with the nominal scenario. */
export function jointRows(
  writer: PageWriter,
  title: string,
  live: LiveJoint,
  compiled: CompiledCandidate,
  inputs: InputTable,
  all: readonly Scenario[],
): JointLosses {
  writer.text(0, 0, title, 'title')
  const titles: string[] = [...FIRST_TITLES]
  for (const [i, each] of titles.entries()) writer.text(1, i, each, 'head')
  const read = inputsOf(live, compiled, inputs)
  let turned: FormulaTerm | null = null
  const rows = all.map((scenario, i) => {
    const row = FIRST_ROW + i
    writer.text(row, 0, scenario.title)
    const put = rowWriter(writer, titles, row)
    const { joint, near, far } = assembled(put, scenario, read, live, turned)
    if (i === 0) turned = put('beam deflection, rad', differenceTerm(far.slopeRad, near.slopeRad))
    const loss = jointLossTerm(put, joint)
    const nearFace = put('loss at the fibre-side face, dB', faceLossTerm(near))
    const farFace = put('loss at the chip-side face, dB', faceLossTerm(far))
    return {
      joint,
      loss,
      nearFace,
      farFace,
      whole: put('coupling and face losses, dB', sumTerm(loss, nearFace, farFace)),
    }
  })
  const [nominal] = rows
  if (nominal === undefined) throw new Error('a joint page needs the nominal scenario')
  const parts = new Map(
    JOINT_PARTS.map((part, i) => {
      const row = FIRST_ROW + all.length + 1 + i
      writer.text(row, 0, `Nominal, ${part} only`)
      const kept = new Set(KEPT[part])
      const joint = Object.fromEntries(
        JOINT_FIELDS.map((field) => [
          field,
          MISALIGNMENT.has(field) && !kept.has(field) ? literal(0) : nominal.joint[field],
        ]),
      ) as unknown as JointTerms
      return [part, jointLossTerm(rowWriter(writer, titles, row), joint)] as const
    }),
  )
  return {
    part: (part) => parts.get(part) ?? literal(0),
    joint: nominal.loss,
    nearFace: nominal.nearFace,
    farFace: nominal.farFace,
    whole: rows.map(({ whole }) => whole),
    height: FIRST_ROW + all.length + 1 + JOINT_PARTS.length,
    widths: [56, ...titles.slice(1).map(() => 16)],
  }
}
