// Thin films of a face, from the glass or guide outwards.

import { quantityOf } from '../../model/quantity/quantity'
import type { Film } from '../../model/schema/coating'
import type { Project } from '../../model/schema/project'
import { editProject } from '../../store/workbench'
import { IndexField } from './IndexField'
import { OptionalQuantity } from './OptionalQuantity'
import { QuantityField } from './QuantityField'
import './coating.css'

/** A quarter wave of a common low-index film at 1550 nm, to be typed over. */
export const newFilm = (): Film => ({
  index: { kind: 'value', index: quantityOf(1.45, '1') },
  thickness: quantityOf(267, 'nm'),
})

export function FilmList({
  films,
  find,
  room,
  newFilm,
}: {
  readonly films: readonly Film[]
  readonly find: (draft: Project) => Film[] | undefined
  readonly room: number
  readonly newFilm: () => Film
}) {
  const edit = (recipe: (own: Film[]) => void) =>
    editProject((draft) => {
      const own = find(draft)
      if (own !== undefined) recipe(own)
    })
  return (
    <>
      <p className="quiet">In order from the glass or waveguide outwards.</p>
      {films.map((film, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a film has no name but its place
        <div className="film" key={at}>
          <IndexField
            label={`Index of film ${at + 1}`}
            source={film.index}
            find={(draft) => find(draft)?.[at]}
          />
          <QuantityField
            label={`Thickness of film ${at + 1}`}
            quantity={film.thickness}
            ruleName="filmThickness"
            find={(draft) => find(draft)?.[at]?.thickness}
          />
          <OptionalQuantity
            label={`Absorption of film ${at + 1}`}
            field="extinction"
            rule="extinction"
            quantity={film.extinction}
            first={() => quantityOf(0.001, '1')}
            find={(draft) => find(draft)?.[at]}
          />
          {films.length > 1 && (
            <button type="button" onClick={() => edit((own) => own.splice(at, 1))}>
              Remove film {at + 1}
            </button>
          )}
        </div>
      ))}
      <button
        type="button"
        disabled={films.length >= room}
        onClick={() => edit((own) => own.push(newFilm()))}
      >
        Add outer film
      </button>
    </>
  )
}
