// A coating as an order says it.

import { toleranceText, valueText } from '../model/quantity/quantityWords'
import type { Coating, Film } from '../model/schema/coating'
import type { LensEntry } from '../model/schema/parts'

function filmsWords(films: readonly Film[]): string {
  const film = ({ index, thickness }: Film) => {
    const name = index.kind === 'material' ? index.material : `index ${valueText(index.index)}`
    return `${name} ${valueText(thickness)} ${toleranceText(thickness)}`.trim()
  }
  return `films from the glass outwards: ${films.map(film).join(', ')}`
}

export function coatingWords(coating: Coating): string {
  return coating.kind === 'films' ? filmsWords(coating.films) : `at most ${valueText(coating.reflectance)}`
}

export function lensCoating({ films, coating }: LensEntry): string {
  if (films !== undefined) return filmsWords(films)
  return coating === undefined ? 'none' : `at most ${valueText(coating)} per face`
}
