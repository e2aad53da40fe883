// The risks that incoming inspection accepts, and how well each of its methods measures.

import type { Purchase } from '../../model/schema/purchase'
import { INSPECTION_DEFAULTS, PURCHASE_LIMITS } from '../../model/words/purchase'
import { METHODS, type MethodId, uncertaintyUnit } from '../../report/characteristics/methods'
import { type InspectionField, setInspection, setUncertainty } from './editPurchase'
import { OptionalNumber } from './OptionalNumber'

const RISKS: readonly (readonly [field: InspectionField, label: string])[] = [
  ['defectivePercent', 'Limiting quality (nonconforming parts), %'],
  ['confidencePercent', 'Probability of rejecting such a lot, %'],
  ['allowedFailures', 'Failures allowed in the sample'],
  ['guardRiskPercent', 'Risk of accepting a part at its limit, %'],
]

export function InspectionFields({
  purchase,
  methods,
}: {
  readonly purchase: Purchase | undefined
  /** Those that the parts of the design need. */
  readonly methods: readonly MethodId[]
}) {
  const { inspection } = purchase ?? {}
  return (
    <section aria-label="Inspection">
      <h2>Sampling and guard band</h2>
      {RISKS.map(([field, label]) => (
        <OptionalNumber
          key={field}
          label={label}
          value={inspection?.[field]}
          range={PURCHASE_LIMITS[field]}
          whole={field === 'allowedFailures'}
          hint={
            inspection?.[field] === undefined ? `Empty: ${INSPECTION_DEFAULTS[field]} (common practice).` : ''
          }
          onSet={(value) => setInspection(field, value)}
        />
      ))}
      <h2>Expanded uncertainty of each method, k = 2</h2>
      {methods.map((id) => (
        <OptionalNumber
          key={id}
          label={`${METHODS[id].name.charAt(0).toUpperCase()}${METHODS[id].name.slice(1)}, ${uncertaintyUnit(id) || 'absolute'}`}
          value={inspection?.uncertainties?.[id]}
          range={PURCHASE_LIMITS.uncertainty}
          hint={
            inspection?.uncertainties?.[id] === undefined
              ? `Empty: ${METHODS[id].expanded} (common practice). ${METHODS[id].description}.`
              : `${METHODS[id].description}.`
          }
          onSet={(value) => setUncertainty(id, value)}
        />
      ))}
    </section>
  )
}
