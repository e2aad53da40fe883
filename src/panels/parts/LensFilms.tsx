// The films on the faces of a lens, in place of a stated reflectance.

import type { LensEntry } from '../../model/schema/parts'
import type { Project } from '../../model/schema/project'
import { LIMITS } from '../../model/words/limits'
import { editProject } from '../../store/workbench'
import { FilmList, newFilm } from '../../ui/fields/FilmList'

export function LensFilms({
  lens,
  find,
}: {
  readonly lens: LensEntry
  readonly find: (draft: Project) => LensEntry | undefined
}) {
  const set = (films: LensEntry['films']) =>
    editProject((draft) => {
      const own = find(draft)
      if (own !== undefined) own.films = films
    })
  if (lens.films === undefined) {
    return (
      <div className="field">
        <button type="button" className="subtle" onClick={() => set([newFilm()])}>
          Define coating layers
        </button>
      </div>
    )
  }
  return (
    <div>
      <FilmList
        films={lens.films}
        find={(draft) => find(draft)?.films}
        room={LIMITS.films}
        newFilm={newFilm}
      />
      <button type="button" className="subtle" onClick={() => set(undefined)}>
        Remove coating layers
      </button>
    </div>
  )
}
