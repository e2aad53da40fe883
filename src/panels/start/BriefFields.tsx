// The few numbers that a job starts with, each with what it decides.

import { useEffect, useId, useRef } from 'react'
import {
  type Brief,
  FIBRE_CHOICES,
  fibreFor,
  PLATFORMS,
  platformOf,
  usualMode,
} from '../../analysis/proposals/brief'
import { coreValue, quantityOf } from '../../model/quantity/quantity'
import { LIGHT_DIRECTIONS, LOSS_BASES } from '../../model/words/requirements'
import { BriefQuantity } from './BriefQuantity'

const STATED_FIBRE = 'stated'
const BASIS_LABELS = {
  percentile: 'P99 of assemblies',
  nominal: 'Nominal',
  RSS: 'RSS',
  'worst case': 'Worst case',
} as const
const DIRECTION_LABELS = {
  'fibre to chip': 'Fibre to chip',
  'chip to fibre': 'Chip to fibre',
  both: 'Both',
} as const
const MOST_CHANNELS = 64

function Group({ why, children }: { readonly why: string; readonly children: React.ReactNode }) {
  return (
    <div className="brief-group">
      <div className="brief-inputs">{children}</div>
      <p className="brief-why">{why}</p>
    </div>
  )
}

function Choice<T extends string>({
  label,
  value,
  choices,
  onChoose,
  wide = false,
}: {
  readonly wide?: boolean
  readonly label: string
  readonly value: T
  readonly choices: readonly (readonly [value: T, label: string])[]
  readonly onChoose: (value: T) => void
}) {
  const id = useId()
  return (
    <div className={wide ? 'brief-input brief-wide' : 'brief-input'}>
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        value={value}
        onChange={(event) => {
          const found = choices.find(([each]) => each === event.target.value)
          if (found !== undefined) onChoose(found[0])
        }}
      >
        {choices.map(([each, words]) => (
          <option key={each} value={each}>
            {words}
          </option>
        ))}
      </select>
    </div>
  )
}

export function BriefFields({
  brief,
  change,
}: {
  readonly brief: Brief
  readonly change: (part: Partial<Brief>) => void
}) {
  const nameId = useId()
  const channelsId = useId()
  const name = useRef<HTMLInputElement>(null)
  // The fields come after the dialog, which has given the focus to its own button.
  useEffect(() => name.current?.focus(), [])
  const platform = platformOf(brief.platformId)
  const canSolve = platform?.core !== undefined
  return (
    <div className="brief">
      <Group why="Title of the review document, and file name.">
        <div className="brief-input brief-wide">
          <label htmlFor={nameId}>Project name</label>
          <input
            ref={name}
            id={nameId}
            value={brief.name}
            maxLength={200}
            onChange={(event) => change({ name: event.target.value })}
          />
        </div>
      </Group>
      <Group why="The wavelength sets mode sizes, indices and the default fibre; the direction affects power, isolator and return loss.">
        <BriefQuantity
          label="Wavelength"
          ruleName="wavelength"
          quantity={brief.wavelength}
          onChange={(wavelength) => {
            const suits = fibreFor(coreValue(wavelength, 'wavelength'))
            const fits = FIBRE_CHOICES.some(
              ({ id, bandNm: [from, to] }) =>
                id === brief.fibreId &&
                1000 * coreValue(wavelength, 'wavelength') >= from &&
                1000 * coreValue(wavelength, 'wavelength') <= to,
            )
            change({ wavelength, ...(fits || suits === undefined ? {} : { fibreId: suits.id }) })
          }}
        />
        <Choice
          label="Direction of light"
          value={brief.direction}
          choices={LIGHT_DIRECTIONS.map((each) => [each, DIRECTION_LABELS[each]])}
          onChoose={(direction) => change({ direction })}
        />
      </Group>
      <Group why="The chip is matched to the fibre mode, which is computed from the core at your wavelength.">
        <Choice
          wide={brief.fibreMfd === null}
          label="Fibre"
          value={brief.fibreMfd === null ? brief.fibreId : STATED_FIBRE}
          choices={[
            ...FIBRE_CHOICES.map(({ id, label }) => [id, label] as const),
            [STATED_FIBRE, 'Other (enter MFD)'],
          ]}
          onChoose={(fibreId) =>
            change(fibreId === STATED_FIBRE ? { fibreMfd: quantityOf(9, 'um') } : { fibreId, fibreMfd: null })
          }
        />
        {brief.fibreMfd !== null && (
          <BriefQuantity
            label="Fibre MFD"
            ruleName="mfd"
            quantity={brief.fibreMfd}
            onChange={(fibreMfd) => change({ fibreMfd })}
          />
        )}
      </Group>
      <Group
        why={
          brief.core === null
            ? 'The 1/e² diameters at the facet decide which converter fits. The values shown are typical of the platform.'
            : 'The facet mode is solved from this core, buried in oxide, before the designs are built.'
        }
      >
        <Choice
          label="Chip platform"
          value={brief.platformId}
          choices={PLATFORMS.map(({ id, label }) => [id, label])}
          onChoose={(platformId) =>
            change({
              platformId,
              ...usualMode(platformId),
              ...(platformOf(platformId)?.core === undefined ? { core: null } : {}),
            })
          }
        />
        <Choice
          label="Facet defined by"
          value={brief.core === null ? 'mode' : 'core'}
          choices={[
            ['mode', 'Mode-field diameters'],
            ...(canSolve ? ([['core', 'Core geometry']] as const) : []),
          ]}
          onChoose={(by) =>
            change({
              core: by === 'core' ? { width: quantityOf(0.6, 'um'), height: quantityOf(0.2, 'um') } : null,
            })
          }
        />
        {brief.core === null ? (
          <>
            <BriefQuantity
              label="Facet MFD x"
              ruleName="mfd"
              quantity={brief.mfdX}
              onChange={(mfdX) => change({ mfdX })}
            />
            <BriefQuantity
              label="Facet MFD y"
              ruleName="mfd"
              quantity={brief.mfdY}
              onChange={(mfdY) => change({ mfdY })}
            />
          </>
        ) : (
          <>
            <BriefQuantity
              label="Core width"
              ruleName="guideSize"
              quantity={brief.core.width}
              onChange={(width) => brief.core && change({ core: { ...brief.core, width } })}
            />
            <BriefQuantity
              label="Core height"
              ruleName="guideSize"
              quantity={brief.core.height}
              onChange={(height) => brief.core && change({ core: { ...brief.core, height } })}
            />
          </>
        )}
      </Group>
      <Group why="Maximum permitted insertion loss per channel, fibre to waveguide. Designs are ranked by it.">
        <BriefQuantity
          label="Loss limit"
          ruleName="loss"
          quantity={brief.lossLimit}
          onChange={(lossLimit) => change({ lossLimit })}
        />
        <Choice
          label="Limit applies to"
          value={brief.lossBasis}
          choices={LOSS_BASES.map((each) => [each, BASIS_LABELS[each]])}
          onChoose={(lossBasis) => change({ lossBasis })}
        />
      </Group>
      <Group why="Several channels need fibre or lens arrays that share the pitch of the chip.">
        <div className="brief-input brief-number">
          <label htmlFor={channelsId}>Channels</label>
          <input
            id={channelsId}
            type="number"
            min={1}
            max={MOST_CHANNELS}
            value={brief.channels}
            onChange={(event) => {
              const channels = Number(event.target.value)
              if (Number.isInteger(channels) && channels >= 1 && channels <= MOST_CHANNELS)
                change({ channels })
            }}
          />
        </div>
        {brief.channels > 1 && (
          <BriefQuantity
            label="Channel pitch"
            ruleName="pitch"
            quantity={brief.pitch}
            onChange={(pitch) => change({ pitch })}
          />
        )}
      </Group>
    </div>
  )
}
