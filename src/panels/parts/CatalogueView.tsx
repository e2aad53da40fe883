// The starter catalogue: what it has, and a click that copies an entry into the project.

import { useState } from 'react'
import { CATALOGUE } from '../../model/catalogue/catalogue'
import { TYPICAL } from '../../model/catalogue/verify'
import { addParts } from '../../model/parts/addParts'
import { matchesSearch } from '../../model/parts/partSearch'
import { PART_LISTS, type PartList, type PartLists } from '../../model/project/references'
import { dimensionsText, partDimensions } from '../../report/partDimensions'
import { editProject } from '../../store/workbench'

const GROUPS: Readonly<Record<PartList, string>> = {
  fibres: 'Fibres',
  facets: 'Facets',
  media: 'Gap media',
  converters: 'Lensed tips and taper chips',
  lenses: 'Lenses',
}

/** The entry's numbers in one line. */
function numbersOf(list: PartList, id: string): string {
  const text = <L extends PartList>(own: L) => {
    const entry: PartLists[L][number] | undefined = CATALOGUE[own].find((each) => each.id === id)
    return entry === undefined ? '' : dimensionsText(partDimensions(own, entry))
  }
  return text(list)
}

export function CatalogueView({ search }: { readonly search: string }) {
  const [said, setSaid] = useState('')
  const copy = (list: PartList, id: string, name: string) => {
    editProject((draft) => {
      addParts(draft, { [list]: CATALOGUE[list].filter((each) => each.id === id) })
    })
    setSaid(`${name} copied into the project`)
  }
  const groups = PART_LISTS.map((list) => ({
    list,
    entries: CATALOGUE[list].filter((entry) => matchesSearch(entry, search)),
  })).filter(({ entries }) => entries.length > 0)
  return (
    <section className="catalogue" aria-label="Starter catalogue">
      <p className="quiet">
        Generic parts, all {TYPICAL}. <span role="status">{said}</span>
      </p>
      {groups.length === 0 && <p>Nothing in the catalogue matches “{search}”.</p>}
      {groups.map(({ list, entries }) => (
        <table key={list}>
          <caption>{GROUPS[list]}</caption>
          <tbody>
            {entries.map(({ id, name, remark }) => (
              <tr key={id}>
                <th scope="row">{name}</th>
                <td className="catalogue-numbers">{numbersOf(list, id)}</td>
                <td className="quiet">{remark?.replace(`${TYPICAL}; `, '')}</td>
                <td>
                  <button type="button" onClick={() => copy(list, id, name)} aria-label={`Copy ${name}`}>
                    Copy
                  </button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      ))}
    </section>
  )
}
