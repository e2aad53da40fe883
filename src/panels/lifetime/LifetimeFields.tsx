// What the drift over service rests on: the test, the law, the service, and how much faster the test was.

import type { Lifetime } from '../../model/schema/build/lifetime'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { DRIFT_LAWS, LAW_TEXTS, LIFETIME_LIMITS, USUAL_SERVICE } from '../../model/words/lifetime'
import { ChoiceField } from '../../ui/fields/ChoiceField'
import { numberCommit } from '../../ui/fields/numberCommit'
import { TextField } from '../../ui/fields/TextField'
import { editLifetime, removeLifetime } from './editLifetime'

type Arrhenius = NonNullable<Lifetime['arrhenius']>
type CoffinManson = NonNullable<Lifetime['coffinManson']>

const ARRHENIUS_FIELDS = [
  ['activationEnergyEv', 'Activation energy, eV', LIFETIME_LIMITS.activationEnergyEv],
  ['testC', 'Test temperature, °C', LIFETIME_LIMITS.temperatureC],
  ['serviceC', 'Service temperature, °C', LIFETIME_LIMITS.temperatureC],
] as const
const COFFIN_MANSON_FIELDS = [
  ['exponent', 'Exponent', LIFETIME_LIMITS.exponent],
  ['testSwingC', 'Temperature swing in the test, °C', LIFETIME_LIMITS.swingC],
  ['serviceSwingC', 'Temperature swing in service, °C', LIFETIME_LIMITS.swingC],
] as const
/** Starts to be replaced by the engineer's numbers: common practice, no source. */
const FIRST_ARRHENIUS: Arrhenius = { activationEnergyEv: 0.7, testC: 85, serviceC: 40 }
const FIRST_COFFIN_MANSON: CoffinManson = { exponent: 2, testSwingC: 125, serviceSwingC: 40 }

export function LifetimeFields({
  project,
  candidate,
  lifetime,
}: {
  readonly project: Project
  readonly candidate: Candidate
  readonly lifetime: Lifetime
}) {
  const edit = (recipe: (own: Lifetime) => void) => editLifetime(candidate.id, recipe)
  const tests = project.measurements.filter(({ method }) => method === 'stress')
  const test = tests.find(({ id }) => id === lifetime.measurementId)
  const isCycles = test?.method === 'stress' && test.rows.exposureUnit === 'cycles'
  const { arrhenius, coffinManson } = lifetime
  const number = (
    label: string,
    value: number,
    range: readonly [number, number],
    take: (own: Lifetime, value: number) => void,
  ) => (
    <TextField
      key={label}
      numeric
      label={label}
      text={String(value)}
      onCommit={numberCommit(label, range, false, (next) => edit((own) => take(own, next)))}
    />
  )
  return (
    <>
      <div className="run-settings">
        <ChoiceField
          label="Stress test"
          value={lifetime.measurementId}
          choices={[
            ...(test === undefined ? [{ value: lifetime.measurementId, label: 'deleted' }] : []),
            ...tests.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          onChoose={(value) =>
            edit((own) => {
              own.measurementId = value
            })
          }
        />
        <ChoiceField
          label="Law"
          value={lifetime.law}
          choices={DRIFT_LAWS.map((law) => ({
            value: law,
            label: `${LAW_TEXTS[law].label}, ${LAW_TEXTS[law].form}`,
          }))}
          onChoose={(value) =>
            edit((own) => {
              own.law = DRIFT_LAWS.find((law) => law === value) ?? own.law
            })
          }
        />
        {isCycles
          ? number(
              'Service life, cycles',
              lifetime.serviceCycles ?? USUAL_SERVICE.cycles,
              LIFETIME_LIMITS.serviceCycles,
              (own, value) => {
                own.serviceCycles = value
              },
            )
          : number(
              'Service life, years',
              lifetime.serviceYears ?? USUAL_SERVICE.years,
              LIFETIME_LIMITS.serviceYears,
              (own, value) => {
                own.serviceYears = value
              },
            )}
        <TextField
          label="Source of law and parameters"
          text={lifetime.basis ?? ''}
          emptyAllowed
          longest={LIFETIME_LIMITS.basisCharacters}
          onCommit={(value) =>
            edit((own) => {
              own.basis = value === '' ? undefined : value
            })
          }
        />
      </div>
      <div className="run-settings">
        {!isCycles &&
          arrhenius !== undefined &&
          ARRHENIUS_FIELDS.map(([field, label, range]) =>
            number(label, arrhenius[field], range, (own, value) => {
              own.arrhenius = { ...FIRST_ARRHENIUS, ...own.arrhenius, [field]: value }
            }),
          )}
        {isCycles &&
          coffinManson !== undefined &&
          COFFIN_MANSON_FIELDS.map(([field, label, range]) =>
            number(label, coffinManson[field], range, (own, value) => {
              own.coffinManson = { ...FIRST_COFFIN_MANSON, ...own.coffinManson, [field]: value }
            }),
          )}
        <Acceleration
          isStated={(isCycles ? coffinManson : arrhenius) !== undefined}
          name={isCycles ? 'Coffin-Manson acceleration' : 'Arrhenius acceleration'}
          onToggle={(isAdded) =>
            edit((own) => {
              if (isCycles) own.coffinManson = isAdded ? { ...FIRST_COFFIN_MANSON } : undefined
              else own.arrhenius = isAdded ? { ...FIRST_ARRHENIUS } : undefined
            })
          }
        />
        <button type="button" className="subtle" onClick={() => removeLifetime(candidate.id)}>
          Remove drift from the budget
        </button>
      </div>
      <p className="quiet">
        {isCycles
          ? 'Coffin-Manson: one cycle of the test equals (swing in the test / swing in service)ⁿ cycles of service. n is about 2 for ductile metals and higher for brittle ones (common practice, no source).'
          : 'Arrhenius: the test runs faster by exp[(Eₐ / k)(1 / T_service − 1 / T_test)], temperatures in kelvin; the same mechanism is assumed at both temperatures.'}{' '}
        Initial values are common practice, without a source: enter your own with their source. Without an
        acceleration factor, service is assumed to be as severe as the test.
      </p>
    </>
  )
}

function Acceleration({
  isStated,
  name,
  onToggle,
}: {
  readonly isStated: boolean
  readonly name: string
  readonly onToggle: (isAdded: boolean) => void
}) {
  return (
    <button type="button" className="subtle" onClick={() => onToggle(!isStated)}>
      {isStated ? 'Remove' : 'Add'} {name}
    </button>
  )
}
