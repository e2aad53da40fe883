// Every entry of the glossary, with a search.

import { useState } from 'react'
import { GLOSSARY, type Term, termFacts } from '../../model/words/glossary'

const textOf = (term: Term) => [term.name, term.definition, ...termFacts(term).flat()].join(' ').toLowerCase()

export function Glossary() {
  const [search, setSearch] = useState('')
  const words = search.toLowerCase().split(/\s+/).filter(Boolean)
  const areas = GLOSSARY.map(({ title, terms }) => ({
    title,
    terms: terms.filter((term) => words.every((word) => textOf(term).includes(word))),
  })).filter(({ terms }) => terms.length > 0)
  return (
    <div className="glossary">
      <input
        type="search"
        aria-label="Search the glossary"
        placeholder="Term or word"
        value={search}
        onChange={(event) => setSearch(event.target.value)}
      />
      {areas.length === 0 && <p role="status">No entries match “{search}”.</p>}
      {areas.map(({ title, terms }) => (
        <section key={title}>
          <h3>{title}</h3>
          <dl>
            {terms.map((term) => (
              <div key={term.id} className="glossary-entry">
                <dt>{term.name}</dt>
                <dd>
                  {term.definition}
                  {termFacts(term).map(([name, text]) => (
                    <span key={name} className="term-fact">
                      <span className="quiet">{name}</span> {text}
                    </span>
                  ))}
                </dd>
              </div>
            ))}
          </dl>
        </section>
      ))}
    </div>
  )
}
