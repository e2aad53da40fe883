// A lensed fibre end, by its radius or by the spot of its data sheet; a spot-size converter chip has an editor of its own.

import { quantityOf } from '../../model/quantity/quantity'
import type { ConverterEntry, LensedTipEntry } from '../../model/schema/parts'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { QuantityField } from '../../ui/fields/QuantityField'
import { PartFrame } from './PartFrame'
import { TaperChipEditor } from './TaperChipEditor'

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

const TIP_CHOICES = [
  { value: 'spot', label: 'spot and working distance' },
  { value: 'radius', label: 'tip radius' },
]

function LensedTipEditor({ project, tip }: { readonly project: Project; readonly tip: LensedTipEntry }) {
  const find = (draft: Project): LensedTipEntry | undefined => {
    const own = byId(draft.converters, tip.id)
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
