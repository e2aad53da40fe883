// What a screen about designs shows while the project has none: the next step.

import { openAddDesign } from '../../store/view'

export function NoDesign() {
  return (
    <div>
      <p>A design is one complete optical path from fibre to waveguide. This project has none yet.</p>
      <button type="button" className="primary" onClick={openAddDesign}>
        Add a design
      </button>
    </div>
  )
}
