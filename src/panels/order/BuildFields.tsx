// How many assemblies are built, and the spares and losses that the quantities allow for.

import type { YieldResult } from '../../analysis/yield/yieldResult'
import type { Purchase } from '../../model/schema/purchase'
import { PURCHASE_LIMITS } from '../../model/words/purchase'
import { percentText, unbroken } from '../../numerics/numberText'
import { assembliesWithSpares, buildOf } from '../../report/purchase/buildQuantity'
import { setBuild } from './editPurchase'
import { OptionalNumber } from './OptionalNumber'

export function BuildFields({
  purchase,
  run,
}: {
  readonly purchase: Purchase | undefined
  /** The yield run of the design that still holds. */
  readonly run: YieldResult | null
}) {
  const build = buildOf(purchase)
  const simulated = run === null ? null : Math.round(1000 * (1 - run.yield)) / 10
  return (
    <section aria-label="Build">
      <OptionalNumber
        label="Good assemblies required"
        value={purchase?.assemblies}
        range={PURCHASE_LIMITS.assemblies}
        whole
        hint={purchase?.assemblies === undefined ? 'Empty: quantities are for one assembly.' : ''}
        onSet={(value) => setBuild('assemblies', value)}
      />
      <OptionalNumber
        label="Expected yield loss, %"
        value={purchase?.yieldLossPercent}
        range={PURCHASE_LIMITS.yieldLossPercent}
        hint={
          purchase?.yieldLossPercent === undefined
            ? 'Empty: no assembly is expected to fail.'
            : 'The parts of a failed assembly are lost.'
        }
        onSet={(value) => setBuild('yieldLossPercent', value)}
      />
      {simulated !== null && simulated !== purchase?.yieldLossPercent && simulated <= 99 && (
        <button type="button" className="subtle" onClick={() => setBuild('yieldLossPercent', simulated)}>
          Apply {simulated} % from the yield run
        </button>
      )}
      <OptionalNumber
        label="Spare parts, %"
        value={purchase?.sparesPercent}
        range={PURCHASE_LIMITS.sparesPercent}
        hint={purchase?.sparesPercent === undefined ? 'Empty: no spares.' : ''}
        onSet={(value) => setBuild('sparesPercent', value)}
      />
      {build !== null && (
        <p role="status">
          {unbroken(
            `${build.begun} assemblies started for ${build.wanted} good ones. Probability that they suffice: ${percentText(build.enough, 1)}, or ${percentText(build.enoughWithSpares, 1)} if ${assembliesWithSpares(build)} are started with the spares.`,
          )}
        </p>
      )}
    </section>
  )
}
