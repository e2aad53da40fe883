// How a mode defined by its diameters changes with wavelength: held constant, a power law, or tabulated diameters.

import { type Quantity, quantityOf } from '../../model/quantity/quantity'
import type { ModeOverWavelength, ModePoint } from '../../model/schema/modeOverWavelength'
import type { Project } from '../../model/schema/project'
import { LIMITS } from '../../model/words/limits'
import { rounded } from '../../numerics/numberText'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { QuantityField } from '../../ui/fields/QuantityField'

const CHOICES = [
  { value: 'constant', label: 'constant' },
  { value: 'power law', label: 'power law' },
  { value: 'points', label: 'tabulated' },
]

interface Mode {
  readonly mfdX: Quantity
  readonly mfdY?: Quantity | undefined
}

const bare = ({ value, unit }: Quantity) => quantityOf(value, unit)

/** The diameters of the part at its wavelength, and once more `byNm` away. */
function pointAt(wavelength: Quantity, mode: Mode, byNm: number): ModePoint {
  const nm = wavelength.unit === 'nm' ? wavelength.value : 1550
  return {
    wavelength: quantityOf(rounded(nm + byNm, 9), 'nm', 'data sheet'),
    mfdX: bare(mode.mfdX),
    mfdY: bare(mode.mfdY ?? mode.mfdX),
  }
}

export function ModeOverWavelengthFields({
  law,
  mode,
  wavelength,
  find,
}: {
  readonly law: ModeOverWavelength | undefined
  readonly mode: Mode
  readonly wavelength: Quantity
  /** The entry that holds the law, in the project being edited. */
  readonly find: (draft: Project) => { overWavelength?: ModeOverWavelength | undefined } | undefined
}) {
  const first = (kind: string): ModeOverWavelength | undefined => {
    if (kind === 'power law') return { kind, exponent: quantityOf(0.5, '1') }
    if (kind === 'points')
      return { kind, points: [pointAt(wavelength, mode, -20), pointAt(wavelength, mode, 20)] }
    return undefined
  }
  const points = (draft: Project) => {
    const own = find(draft)?.overWavelength
    return own?.kind === 'points' ? own.points : undefined
  }
  const editPoints = (recipe: (own: ModePoint[]) => void) =>
    editProject((draft) => {
      const own = points(draft)
      if (own !== undefined) recipe(own)
    })
  return (
    <>
      <ChoiceField
        label="MFD vs wavelength"
        value={law?.kind ?? 'constant'}
        choices={CHOICES}
        onChoose={(kind) =>
          editProject((draft) => {
            const owner = find(draft)
            if (owner !== undefined && owner.overWavelength?.kind !== kind) owner.overWavelength = first(kind)
          })
        }
      />
      {law?.kind === 'power law' && (
        <QuantityField
          label="Exponent of the power law"
          quantity={law.exponent}
          ruleName="exponent"
          find={(draft) => {
            const own = find(draft)?.overWavelength
            return own?.kind === 'power law' ? own.exponent : undefined
          }}
        />
      )}
      {law?.kind === 'points' &&
        law.points.map((point, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a point has no name but its place
          <div key={at}>
            <QuantityField
              label={`Wavelength ${at + 1}`}
              quantity={point.wavelength}
              ruleName="wavelength"
              find={(draft) => points(draft)?.[at]?.wavelength}
            />
            <QuantityField
              label={`MFD x at wavelength ${at + 1}`}
              quantity={point.mfdX}
              ruleName="mfd"
              find={(draft) => points(draft)?.[at]?.mfdX}
            />
            <QuantityField
              label={`MFD y at wavelength ${at + 1}`}
              quantity={point.mfdY}
              ruleName="mfd"
              find={(draft) => points(draft)?.[at]?.mfdY}
            />
            {law.points.length > 2 && (
              <button type="button" className="subtle" onClick={() => editPoints((own) => own.splice(at, 1))}>
                Remove wavelength {at + 1}
              </button>
            )}
          </div>
        ))}
      {law?.kind === 'points' && (
        <div className="field">
          <button
            type="button"
            className="subtle"
            disabled={law.points.length >= LIMITS.modePoints}
            onClick={() => editPoints((own) => own.push(pointAt(wavelength, mode, 20 * own.length)))}
          >
            Add wavelength
          </button>
        </div>
      )}
    </>
  )
}
