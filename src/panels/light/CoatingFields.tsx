// The coating of one face: bare, a reflectance, or thin films with their indices and thicknesses.

import { quantityOf } from '../../model/quantity/quantity'
import type { Coating } from '../../model/schema/coating'
import type { Project } from '../../model/schema/project'
import { LIMITS } from '../../model/words/limits'
import { editProject } from '../../store/workbench'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { FilmList, newFilm } from '../../ui/fields/FilmList'
import { QuantityField } from '../../ui/fields/QuantityField'

const CHOICES = [
  { value: 'bare', label: 'uncoated' },
  { value: 'reflectance', label: 'an entered reflectance' },
  { value: 'films', label: 'thin films' },
]

function first(kind: string): Coating | undefined {
  if (kind === 'reflectance') return { kind, reflectance: quantityOf(0.25, '%') }
  if (kind === 'films') return { kind, films: [newFilm()] }
  return undefined
}

type CoatedSide = 'nearCoating' | 'farCoating'
type CoatingOwner = { [S in CoatedSide]?: Coating | undefined }

export function CoatingFields({
  label,
  side,
  coating,
  find,
}: {
  readonly label: string
  readonly side: CoatedSide
  readonly coating: Coating | undefined
  /** The element that has the face, in the project being edited. */
  readonly find: (draft: Project) => CoatingOwner | undefined
}) {
  const films = (draft: Project) => {
    const own = find(draft)?.[side]
    return own?.kind === 'films' ? own.films : undefined
  }
  return (
    <fieldset className="coating">
      <legend>{label}</legend>
      <ChoiceField
        label={`Coating of the ${label.toLowerCase()}`}
        value={coating?.kind ?? 'bare'}
        choices={CHOICES}
        onChoose={(kind) =>
          editProject((draft) => {
            const owner = find(draft)
            if (owner !== undefined && owner[side]?.kind !== kind) owner[side] = first(kind)
          })
        }
      />
      {coating?.kind === 'reflectance' && (
        <QuantityField
          label={`Reflectance of the ${label.toLowerCase()}`}
          quantity={coating.reflectance}
          ruleName="reflectance"
          find={(draft) => {
            const own = find(draft)?.[side]
            return own?.kind === 'reflectance' ? own.reflectance : undefined
          }}
        />
      )}
      {coating?.kind === 'films' && (
        <FilmList films={coating.films} find={films} room={LIMITS.films} newFilm={newFilm} />
      )}
    </fieldset>
  )
}
