// The mode and the coupling over a dimension or the wavelength; the optimum, and applying a value.

import { useMemo, useState } from 'react'
import type { ModeRequest } from '../../../analysis/crossSection/facetMode'
import type { SweepResult } from '../../../analysis/crossSection/modeSweep'
import { type SweepChoice, sweepChoices } from '../../../analysis/crossSection/sweepVariable'
import { modeSweepFigure } from '../../../figures/field/modeSweep'
import { RULES } from '../../../model/quantity/quantityRules'
import { unitFactor, unitLabel } from '../../../model/quantity/units'
import type { CrossSectionEntry } from '../../../model/schema/crossSection'
import { fixedText, plainText, rounded } from '../../../numerics/numberText'
import { answers, startModeRun, useModeRun } from '../../../store/modeRuns'
import { ChoiceField } from '../../../ui/fields/ChoiceField'
import { numberCommit } from '../../../ui/fields/numberCommit'
import { TextField } from '../../../ui/fields/TextField'
import { FigureView } from '../../../ui/figures/FigureView'
import { ModeRunLine } from './ModeRunLine'
import { SweptValues } from './SweptValues'
import type { SectionOwner } from './sectionOwner'

const SWEEP_PX = 380
const USUAL_POINTS = 20
/** First range: this far below and above the present value. */
const FIRST_RANGE = [0.5, 1.5] as const
const FIRST_WAVELENGTH_RANGE = [0.97, 1.03] as const

/** Size of the unit of a rule's entry, in the core's unit. */
function unitOf(rule: SweepChoice['rule']) {
  const { unit, dimension } = RULES[rule]
  return { label: unitLabel(unit), size: unitFactor(dimension, unit) ?? 1 }
}

function firstRange({ variable, now }: SweepChoice): readonly [number, number] {
  const [low, high] = variable.kind === 'wavelength' ? FIRST_WAVELENGTH_RANGE : FIRST_RANGE
  const digits = (value: number) => rounded(value, 3)
  return [digits(low * now), digits(high * now)]
}

function sentenceOf(result: SweepResult, choice: SweepChoice, unit: ReturnType<typeof unitOf>): string {
  const shown = (core: number) => `${plainText(core / unit.size, 4)} ${unit.label}`
  const without = result.points.filter((point) => point.numbers === null).length
  const gone = without === 0 ? '' : ` No usable mode at ${without} of ${result.points.length} points.`
  if (result.best === null) return `Sweep of the ${choice.label}.${gone}`
  const { value, lossDb, atEnd } = result.best
  const where = atEnd ? ', at the edge of the usable range; the true optimum may lie outside it' : ''
  return `Sweep of the ${choice.label}: minimum loss ${fixedText(lossDb, 2)} dB at ${shown(value)}${where}.${gone}`
}

export function SweepPanel({
  owner,
  section,
  request,
}: {
  readonly owner: SectionOwner
  readonly section: CrossSectionEntry
  readonly request: ModeRequest
}) {
  const run = useModeRun('sweep', owner.id)
  const choices = useMemo(() => sweepChoices(section, request.wavelengthUm), [section, request.wavelengthUm])
  const [key, setKey] = useState(choices[0]?.key ?? '')
  const choice = choices.find((each) => each.key === key) ?? choices[0]
  const [range, setRange] = useState<readonly [number, number] | null>(null)
  const [points, setPoints] = useState(USUAL_POINTS)
  const [chosen, setChosen] = useState<number | null>(null)
  if (choice === undefined) return null
  const unit = unitOf(choice.rule)
  const [from, to] = range ?? firstRange(choice)
  const { minCore, maxCore } = RULES[choice.rule]
  const wanted = { ...request, variable: choice.variable, from, to, points }
  const finished = run.finished
  const current =
    finished !== null && JSON.stringify(finished.request.variable) === JSON.stringify(choice.variable)
  const result = current ? finished.result : null
  const limits = [minCore / unit.size, maxCore / unit.size] as const
  const figure =
    result === null
      ? null
      : modeSweepFigure(
          {
            name: choice.label.charAt(0).toUpperCase() + choice.label.slice(1),
            unit: unit.label,
            values: result.points.map((point) => point.value / unit.size),
            mfdXUm: result.points.map(({ numbers }) => numbers?.widths.gaussian.mfdUm.x ?? null),
            mfdYUm: result.points.map(({ numbers }) => numbers?.widths.gaussian.mfdUm.y ?? null),
            lossDb: result.points.map(({ numbers }) => numbers?.fibreLoss?.fieldDb ?? null),
            gaussianDb: result.points.map(({ numbers }) => numbers?.fibreLoss?.gaussianDb ?? null),
            chosen: chosen === null ? null : chosen / unit.size,
            now: choice.now / unit.size,
          },
          sentenceOf(result, choice, unit),
        )
  return (
    <section aria-label="Sweep">
      <h2>Sweep</h2>
      <div className="run-settings">
        <ChoiceField
          label="Swept quantity"
          value={choice.key}
          choices={choices.map((each) => ({ value: each.key, label: each.label }))}
          onChoose={(value) => {
            setKey(value)
            setRange(null)
            setChosen(null)
          }}
        />
        <TextField
          numeric
          label={`From, ${unit.label}`}
          text={plainText(from / unit.size, 6)}
          onCommit={numberCommit('Start', limits, false, (value) => setRange([value * unit.size, to]))}
        />
        <TextField
          numeric
          label={`To, ${unit.label}`}
          text={plainText(to / unit.size, 6)}
          onCommit={numberCommit('End', limits, false, (value) => setRange([from, value * unit.size]))}
        />
        <TextField
          numeric
          label="Number of points"
          text={String(points)}
          onCommit={numberCommit('Number of points', [2, 100], true, setPoints)}
        />
      </div>
      <ModeRunLine
        kind="sweep"
        facetId={owner.id}
        label="Run the sweep"
        onStart={() => {
          setChosen(null)
          void startModeRun('sweep', owner.id, wanted)
        }}
      />
      {result !== null && figure !== null && (
        <div className={answers(run, wanted) ? undefined : 'stale'}>
          {!answers(run, wanted) && (
            <p className="stale-note">Out of date: inputs have changed. Run the sweep again.</p>
          )}
          <FigureView figure={figure} heightPx={SWEEP_PX} />
          <SweptValues
            owner={owner}
            section={section}
            choice={choice}
            unit={unit}
            result={result}
            chosen={chosen}
            onChoose={setChosen}
          />
        </div>
      )}
    </section>
  )
}
