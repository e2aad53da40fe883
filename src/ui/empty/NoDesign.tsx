// What a screen about designs shows while the project has none: what it will show, and the way there.

import { FAMILIES } from '../../analysis/proposals/families'
import { USUAL_OUTLINES } from '../../figures/path/usualOutlines'
import { openAddDesign, showPage } from '../../store/view'
import { PathThumbnail } from '../figures/PathThumbnail'

/** `shows` is a sentence: what the screen shows of a design. */
export function NoDesign({ shows }: { readonly shows: string }) {
  return (
    <div className="no-design">
      <p>{shows}</p>
      <p className="quiet">
        A design is one complete optical path from fibre to waveguide. This project has none yet.
      </p>
      <ul className="no-design-families" aria-hidden="true">
        {FAMILIES.map(({ id, label }) => (
          <li key={id}>
            <PathThumbnail stops={USUAL_OUTLINES[id]} label={`Mode along the path: ${label}`} />
            <span>{label}</span>
          </li>
        ))}
      </ul>
      <p className="no-design-steps">
        <button type="button" className="primary" onClick={openAddDesign}>
          Add a design
        </button>
        <button type="button" className="subtle" onClick={() => showPage('requirements')}>
          Edit requirements
        </button>
        <button type="button" className="subtle" onClick={() => showPage('parts')}>
          Edit parts
        </button>
      </p>
      <p className="quiet">
        A draft uses the wavelength and limits from Requirements and the fibre and facet from Parts, with
        typical parts where none is suitable.
      </p>
    </div>
  )
}
