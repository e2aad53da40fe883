// What belongs to a core without walls beyond its sizes: profile tables, an index map, the step over wavelength, and its picture.

import { useMemo } from 'react'
import { coreProfiles } from '../../../analysis/crossSection/coreProfile'
import { mapHostWarning } from '../../../analysis/crossSection/mapHost'
import { coreProfileFigure } from '../../../figures/field/coreProfile'
import type { CoreEntry, CrossSectionEntry } from '../../../model/schema/crossSection'
import type { Project } from '../../../model/schema/project'
import { InputError } from '../../../numerics/inputError'
import { rounded } from '../../../numerics/numberText'
import { editProject } from '../../../store/workbench'
import { Warnings } from '../../../ui/figures/FactTable'
import { FigureView } from '../../../ui/figures/FigureView'
import { IndexMapField } from './IndexMapField'
import { PairsField } from './PairsField'
import { readStepOverWavelength, readStepProfile, setIndexMap, setStepProfile } from './tableEdits'

const FIGURE_PX = 220

const PROFILES = [
  {
    field: 'widthProfile',
    label: 'Width profile: distance from the core centre, µm, and fraction of the index step',
    said: 'Symmetric about the core centre, linear between rows, 0 beyond the last. Empty: Gaussian.',
  },
  {
    field: 'depthProfile',
    label: 'Depth profile: depth below the surface, µm, and fraction of the index step',
    said: 'Measured downwards from the surface, the upper edge of the core; 0 beyond the last row. Empty: Gaussian.',
  },
] as const

function ProfilePicture({
  section,
  core,
  wavelengthUm,
}: {
  readonly section: CrossSectionEntry
  readonly core: CoreEntry
  readonly wavelengthUm: number
}) {
  const found = useMemo(() => {
    try {
      const profiles = coreProfiles(section, core.id, wavelengthUm)
      return (
        profiles && {
          figure: coreProfileFigure(`profile-${core.id}`, core.name, profiles),
          warning: mapHostWarning(core, profiles, wavelengthUm),
        }
      )
    } catch (error) {
      if (error instanceof InputError) return null
      throw error
    }
  }, [section, core, wavelengthUm])
  if (found === null) return null
  return (
    <>
      {found.warning !== null && <Warnings messages={[found.warning]} />}
      <FigureView figure={found.figure} heightPx={FIGURE_PX} />
    </>
  )
}

export function CoreTables({
  owner,
  section,
  core,
  wavelengthUm,
  find,
}: {
  /** Id of what the cross-section belongs to. */
  readonly owner: string
  readonly section: CrossSectionEntry
  readonly core: CoreEntry
  readonly wavelengthUm: number
  readonly find: (draft: Project) => CoreEntry | undefined
}) {
  const { profile = 'uniform', stepOverWavelength } = core
  if (profile === 'uniform') return null
  const edit = (change: (own: CoreEntry) => void) => () =>
    editProject((draft) => {
      const own = find(draft)
      if (own !== undefined) change(own)
    })
  return (
    <div className="core-tables">
      {profile === 'index map' && (
        <IndexMapField map={core.map} onMap={(map) => edit((own) => setIndexMap(own, map))()} />
      )}
      {profile === 'user profiles' &&
        PROFILES.map(({ field, label, said }) => (
          <PairsField
            key={field}
            draft={`${field} ${owner} ${core.id}`}
            label={label}
            names={{ first: 'a distance in µm', second: 'a fraction from −1 to 1' }}
            first={core[field]?.distancesUm ?? []}
            second={core[field]?.shares ?? []}
            said={said}
            read={(distances, shares) => {
              if (distances.length === 0) return edit((own) => setStepProfile(own, field, null))
              const read = readStepProfile(distances, shares)
              return typeof read === 'string' ? read : edit((own) => setStepProfile(own, field, read))
            }}
          />
        ))}
      <PairsField
        draft={`step ${owner} ${core.id}`}
        label="Index step vs wavelength: wavelength, nm, and peak step"
        names={{ first: 'a wavelength in nm', second: 'an index step' }}
        first={(stepOverWavelength?.wavelengthsUm ?? []).map((um) => rounded(um * 1000, 8))}
        second={stepOverWavelength?.steps ?? []}
        said="Step above the surrounding glass, linear between rows; replaces the peak index. Empty: the peak index applies."
        read={(wavelengthsNm, steps) => {
          if (wavelengthsNm.length === 0) {
            return edit((own) => {
              own.stepOverWavelength = undefined
            })
          }
          const read = readStepOverWavelength(wavelengthsNm, steps)
          if (typeof read === 'string') return read
          return edit((own) => {
            own.stepOverWavelength = read
          })
        }}
      />
      <ProfilePicture section={section} core={core} wavelengthUm={wavelengthUm} />
    </div>
  )
}
