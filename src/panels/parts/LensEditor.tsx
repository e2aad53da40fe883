// A lens: its shape as seen from the collimated side, its glass, what it lets through.

import { type Quantity, quantityOf } from '../../model/quantity/quantity'
import type { RuleName } from '../../model/quantity/quantityRules'
import type { LensEntry, LensShapeEntry } from '../../model/schema/parts'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { IndexField } from '../../ui/fields/IndexField'
import { OptionalQuantity } from '../../ui/fields/OptionalQuantity'
import { QuantityField } from '../../ui/fields/QuantityField'
import { LensFilms } from './LensFilms'
import { LensTerms } from './LensTerms'
import { PartFrame } from './PartFrame'

type Kind = LensShapeEntry['kind']
interface ShapeNumber {
  readonly field: string
  readonly label: string
  readonly rule: RuleName
}

const NUMBERS: Readonly<Record<Kind, readonly ShapeNumber[]>> = {
  thin: [{ field: 'focalLength', label: 'Focal length', rule: 'focalLength' }],
  ball: [{ field: 'diameter', label: 'Diameter', rule: 'lensSize' }],
  'plano-convex': [
    { field: 'radius', label: 'Radius of curvature', rule: 'radius' },
    { field: 'thickness', label: 'Thickness', rule: 'lensSize' },
  ],
  biconvex: [
    { field: 'frontRadius', label: 'Radius of curvature, collimated side', rule: 'radius' },
    { field: 'backRadius', label: 'Radius of curvature, focused side', rule: 'radius' },
    { field: 'thickness', label: 'Thickness', rule: 'lensSize' },
  ],
  'gradient index': [
    { field: 'rodPitch', label: 'Rod pitch', rule: 'rodPitch' },
    { field: 'length', label: 'Length', rule: 'lensSize' },
  ],
}

const FIRST_SHAPES: Readonly<Record<Kind, () => LensShapeEntry>> = {
  thin: () => ({ kind: 'thin', focalLength: quantityOf(500, 'um', 'estimate', 5) }),
  ball: () => ({ kind: 'ball', diameter: quantityOf(0.5, 'mm', 'estimate', 0.001) }),
  'plano-convex': () => ({
    kind: 'plano-convex',
    radius: quantityOf(250, 'um', 'estimate', 3),
    thickness: quantityOf(0.25, 'mm', 'estimate', 0.01),
  }),
  biconvex: () => ({
    kind: 'biconvex',
    frontRadius: quantityOf(500, 'um', 'estimate', 5),
    backRadius: quantityOf(500, 'um', 'estimate', 5),
    thickness: quantityOf(0.3, 'mm', 'estimate', 0.01),
  }),
  'gradient index': () => ({
    kind: 'gradient index',
    rodPitch: quantityOf(0.23, '1', 'estimate', 0.005),
    length: quantityOf(2, 'mm', 'estimate', 0.02),
  }),
}

const KINDS = Object.keys(NUMBERS) as readonly Kind[]

function numberOf(shape: LensShapeEntry, field: string): Quantity | undefined {
  return (shape as unknown as Readonly<Record<string, Quantity | undefined>>)[field]
}

export function LensEditor({ project, lens }: { readonly project: Project; readonly lens: LensEntry }) {
  const find = (draft: Project) => byId(draft.lenses, lens.id)
  /** The glass under the name that the index field knows. */
  const findGlass = (draft: Project) => {
    const own = find(draft)
    if (own === undefined) return undefined
    return {
      get index() {
        return own.glass
      },
      set index(source) {
        own.glass = source
      },
    }
  }
  return (
    <PartFrame project={project} list="lenses" kind="lens" part={lens}>
      <ChoiceField
        label="Shape"
        value={lens.shape.kind}
        choices={KINDS.map((value) => ({ value, label: value }))}
        onChoose={(value) =>
          editProject((draft) => {
            const own = find(draft)
            const kind = KINDS.find((each) => each === value)
            if (own !== undefined && kind !== undefined && kind !== own.shape.kind) {
              own.shape = FIRST_SHAPES[kind]()
            }
          })
        }
      />
      {NUMBERS[lens.shape.kind].map(({ field, label, rule }) => {
        const quantity = numberOf(lens.shape, field)
        return quantity === undefined ? null : (
          <QuantityField
            key={field}
            label={label}
            quantity={quantity}
            ruleName={rule}
            find={(draft) => {
              const own = find(draft)
              return own === undefined ? undefined : numberOf(own.shape, field)
            }}
          />
        )
      })}
      <LensTerms lens={lens} find={find} />
      <IndexField label="Index of the glass" source={lens.glass} find={findGlass} />
      <QuantityField
        label="Clear aperture (diameter)"
        quantity={lens.clearAperture}
        ruleName="aperture"
        find={(draft) => find(draft)?.clearAperture}
      />
      <OptionalQuantity
        label="Reflectance per coated surface"
        field="coating"
        rule="reflectance"
        quantity={lens.coating}
        first={() => quantityOf(0.25, '%')}
        find={find}
      />
      <LensFilms lens={lens} find={find} />
      <OptionalQuantity
        label="Array pitch"
        field="pitch"
        rule="pitch"
        quantity={lens.pitch}
        first={() => quantityOf(250, 'um')}
        find={find}
      />
    </PartFrame>
  )
}
