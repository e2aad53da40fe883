// A lensed fibre end, by its radius or by the spot of its data sheet, or a spot-size converter chip with its two ends.

import { quantityOf } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { ConverterEntry, LensedTipEntry, TaperChipEntry } from '../../model/schema/parts'
import type { Project } from '../../model/schema/project'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { IndexField } from '../../ui/fields/IndexField'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { QuantityField } from '../../ui/fields/QuantityField'
import { TextField } from '../../ui/fields/TextField'
import { PartFrame } from './PartFrame'

export function ConverterEditor({
  project,
  converter,
}: {
  readonly project: Project
  readonly converter: ConverterEntry
}) {
  return converter.kind === 'taper chip' ? (
    <TaperChipEditor project={project} chip={converter} />
  ) : (
    <LensedTipEditor project={project} tip={converter} />
  )
}

const CHIP_NUMBERS = [
  ['inputMfdX', 'Input MFD x', 'mfd'],
  ['inputMfdY', 'Input MFD y', 'mfd'],
  ['outputMfdX', 'Output MFD x', 'mfd'],
  ['outputMfdY', 'Output MFD y', 'mfd'],
  ['transmissionLoss', 'Insertion loss', 'loss'],
  ['inputPitch', 'Input pitch', 'pitch'],
  ['outputPitch', 'Output pitch', 'pitch'],
] as const satisfies readonly (readonly [keyof TaperChipEntry, string, RuleName])[]

function TaperChipEditor({ project, chip }: { readonly project: Project; readonly chip: TaperChipEntry }) {
  const find = (draft: Project): TaperChipEntry | undefined => {
    const own = draft.converters.find((each) => each.id === chip.id)
    return own?.kind === 'taper chip' ? own : undefined
  }
  return (
    <PartFrame project={project} list="converters" kind="SSC chip" part={chip}>
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

const TIP_CHOICES = [
  { value: 'spot', label: 'spot and working distance' },
  { value: 'radius', label: 'tip radius' },
]

function LensedTipEditor({ project, tip }: { readonly project: Project; readonly tip: LensedTipEntry }) {
  const find = (draft: Project): LensedTipEntry | undefined => {
    const own = draft.converters.find((each) => each.id === tip.id)
    return own?.kind === 'lensed tip' ? own : undefined
  }
  const spot = (draft: Project) => {
    const own = find(draft)?.tip
    return own?.kind === 'spot' ? own : undefined
  }
  return (
    <PartFrame project={project} list="converters" kind="lensed fibre" part={tip}>
      <ChoiceField
        label="Defined by"
        value={tip.tip.kind}
        choices={TIP_CHOICES}
        onChoose={(value) =>
          editProject((draft) => {
            const own = find(draft)
            if (own === undefined || own.tip.kind === value) return
            own.tip =
              value === 'radius'
                ? { kind: 'radius', radius: quantityOf(10, 'um', 'estimate', 0.5) }
                : {
                    kind: 'spot',
                    spotX: quantityOf(3, 'um', 'estimate', 0.4),
                    workingDistance: quantityOf(12, 'um', 'estimate', 2),
                  }
          })
        }
      />
      {tip.tip.kind === 'radius' ? (
        <QuantityField
          label="Tip radius"
          quantity={tip.tip.radius}
          ruleName="radius"
          find={(draft) => {
            const own = find(draft)?.tip
            return own?.kind === 'radius' ? own.radius : undefined
          }}
        />
      ) : (
        <>
          <QuantityField
            label="Spot x"
            quantity={tip.tip.spotX}
            ruleName="mfd"
            find={(draft) => spot(draft)?.spotX}
          />
          <OptionalQuantity
            label="Spot y"
            field="spotY"
            rule="mfd"
            quantity={tip.tip.spotY}
            first={() => quantityOf(3, 'um', 'estimate', 0.4)}
            find={spot}
          />
          <QuantityField
            label="Working distance"
            quantity={tip.tip.workingDistance}
            ruleName="workingDistance"
            find={(draft) => spot(draft)?.workingDistance}
          />
          <OptionalQuantity
            label="Tip radius, for the back-reflection"
            field="radius"
            rule="radius"
            quantity={tip.tip.radius}
            first={null}
            find={spot}
          />
        </>
      )}
      <p className="quiet wide">
        Use in air only: index-matching gel or adhesive removes the focusing power of the tip. Typical spot
        sizes are 2 to 6 µm at working distances of 5 to 20 µm (common practice). Spherical aberration
        enlarges the spot when the tip radius approaches the mode radius.
      </p>
    </PartFrame>
  )
}
