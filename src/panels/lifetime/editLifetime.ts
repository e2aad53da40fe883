// Edits of the lifetime of a design; the first one begins with a linear law and no acceleration.

import type { Lifetime } from '../../model/schema/build/lifetime'
import { editProject } from '../../store/workbench'

export function editLifetime(designId: string, recipe: (own: Lifetime) => void): void {
  editProject((draft) => {
    const design = draft.candidates.find(({ id }) => id === designId)
    if (design === undefined) return
    const own = design.lifetime ?? { measurementId: '', law: 'linear' }
    recipe(own)
    design.lifetime = own
  })
}

export function removeLifetime(designId: string): void {
  editProject((draft) => {
    const design = draft.candidates.find(({ id }) => id === designId)
    if (design !== undefined) design.lifetime = undefined
  })
}
