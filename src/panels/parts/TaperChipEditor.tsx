// A spot-size converter chip: its numbers, and the cross-section of the waveguide at each of its ends.

import { lazy, type ReactNode, Suspense, useState } from 'react'
import { CHIP_SIDES, type ChipSide, END_FIELDS } from '../../model/parts/chipEnds'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { TaperChipEntry } from '../../model/schema/parts'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { partsView, usePartsView } from '../../store/partsView'
import { editProject } from '../../store/workbench'
import { Tabs } from '../../ui/controls/Tabs'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { IndexField } from '../../ui/fields/IndexField'
import { QuantityField } from '../../ui/fields/QuantityField'
import { TextField } from '../../ui/fields/TextField'
import type { SectionTab, SolveChoice } from './crossSection/CrossSectionPanel'
import { chipEndOwner } from './crossSection/sectionOwner'
import { SolvedShapeFields } from './modeShape/ModeShapeFields'
import { PartFrame } from './PartFrame'

const CrossSectionPanel = lazy(() =>
  import('./crossSection/CrossSectionPanel').then((each) => ({ default: each.CrossSectionPanel })),
)

const CHIP_NUMBERS = [
  ['inputMfdX', 'Input MFD x', 'mfd'],
  ['inputMfdY', 'Input MFD y', 'mfd'],
  ['outputMfdX', 'Output MFD x', 'mfd'],
  ['outputMfdY', 'Output MFD y', 'mfd'],
  ['transmissionLoss', 'Insertion loss', 'loss'],
  ['inputPitch', 'Input pitch', 'pitch'],
  ['outputPitch', 'Output pitch', 'pitch'],
] as const satisfies readonly (readonly [keyof TaperChipEntry, string, RuleName])[]

const VIEWS: readonly { readonly id: SectionTab; readonly label: string }[] = [
  { id: 'cross-section', label: 'Waveguide cross-section' },
  { id: 'mode', label: 'Solved mode' },
  { id: 'sweep', label: 'Sweep' },
]

const END_CHOICES = CHIP_SIDES.map((value) => ({ value, label: `${value} end` }))

export function TaperChipEditor({
  project,
  chip,
}: {
  readonly project: Project
  readonly chip: TaperChipEntry
}) {
  const find = (draft: Project): TaperChipEntry | undefined => {
    const own = byId(draft.converters, chip.id)
    return own?.kind === 'taper chip' ? own : undefined
  }
  const tab = usePartsView((state) => state.chipTab)
  const [side, setSide] = useState<ChipSide>('input')
  const [choice, setChoice] = useState<SolveChoice>({ fibreId: project.fibres[0]?.id ?? '', grid: '200x150' })
  const section = (view: SectionTab): ReactNode => (
    <>
      <div className="run-settings">
        <ChoiceField
          label="Chip end"
          value={side}
          choices={END_CHOICES}
          onChoose={(value) => setSide(CHIP_SIDES.find((each) => each === value) ?? 'input')}
        />
      </div>
      <Suspense fallback={<p className="quiet">Loading…</p>}>
        <CrossSectionPanel
          key={side}
          project={project}
          owner={chipEndOwner(chip, side)}
          view={view}
          choice={choice}
          onChoice={setChoice}
          onDefined={() => partsView.setState({ chipTab: 'cross-section' })}
        />
      </Suspense>
    </>
  )
  return (
    <PartFrame
      project={project}
      list="converters"
      kind="SSC chip"
      part={chip}
      tabs={(fields) => (
        <Tabs
          flowing
          label={`Views of ${chip.name}`}
          tabs={[
            { id: 'chip', label: 'SSC chip', view: () => fields },
            ...VIEWS.map(({ id, label }) => ({ id, label, view: () => section(id) })),
          ]}
          chosen={tab}
          onChoose={(id) => partsView.setState({ chipTab: id })}
        />
      )}
    >
      {CHIP_NUMBERS.map(([field, label, rule]) => (
        <QuantityField
          key={field}
          label={label}
          quantity={chip[field]}
          ruleName={rule}
          find={(draft) => find(draft)?.[field]}
        />
      ))}
      <IndexField label="Effective index of the mode" source={chip.index} find={find} />
      {CHIP_SIDES.map((each) => (
        <EndFields key={each} project={project} chip={chip} side={each} find={find} />
      ))}
      <TextField
        label="Holder"
        text={chip.holder ?? ''}
        emptyAllowed
        onCommit={(text) =>
          editProject((draft) => {
            const own = find(draft)
            if (own !== undefined) own.holder = text === '' ? undefined : text
          })
        }
      />
    </PartFrame>
  )
}

/** How the mode of an end is modelled, and its own effective index where it has one. */
function EndFields({
  project,
  chip,
  side,
  find,
}: {
  readonly project: Project
  readonly chip: TaperChipEntry
  readonly side: ChipSide
  readonly find: (draft: Project) => TaperChipEntry | undefined
}) {
  const { end } = END_FIELDS[side]
  const index = chip[end]?.index
  return (
    <>
      <SolvedShapeFields
        project={project}
        owner={chipEndOwner(chip, side)}
        label={`Mode shape, ${side} end`}
      />
      {index !== undefined && (
        <IndexField
          label={`Effective index, ${side} end`}
          source={index}
          find={(draft) => {
            const own = find(draft)?.[end]
            return own?.index === undefined ? undefined : { index: own.index }
          }}
        />
      )}
    </>
  )
}
