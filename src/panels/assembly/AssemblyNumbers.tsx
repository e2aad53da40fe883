// Numbers of a run through the steps: the whole, then step by step, then what making one step better gains.

import type { AssemblyResult } from '../../analysis/assembly/assemblyResult'
import { countText, fixedText, grouped, percentText, signedText } from '../../numerics/numberText'
import { FactTable } from '../../ui/figures/FactTable'

const amount = (value: number | null) => (value === null ? 'no good part' : grouped(fixedText(value, 2)))
const db = (value: number | null) => (value === null ? 'none finished' : `${fixedText(value, 2)} dB`)

export function AssemblyNumbers({ result }: { readonly result: AssemblyResult }) {
  const { yieldInterval } = result
  return (
    <div>
      <FactTable
        caption="Whole sequence"
        rows={[
          ['Yield', percentText(result.yield, 1)],
          [
            'Yield, 95 % interval',
            `${percentText(yieldInterval.low, 1)} to ${percentText(yieldInterval.high, 1)}`,
          ],
          ['Cost per good part', amount(result.costPerGood)],
          [
            'Time per good part',
            result.minutesPerGood === null
              ? 'no good part'
              : `${grouped(fixedText(result.minutesPerGood, 1))} min`,
          ],
          ['Passed but above the limit', percentText(result.escaped, 2)],
          ['P50 of finished assemblies', db(result.p50Db)],
          ['P95 of finished assemblies', db(result.p95Db)],
        ]}
      />
      <p className="quiet">
        {countText(result.samples)} assemblies of{' '}
        {result.channels === 1
          ? 'one channel'
          : `${result.channels} channels, all of which must pass: losses are those of the worst channel`}
        , seed {result.seed}. A good assembly passes every step and is within {fixedText(result.limitDb, 2)}{' '}
        dB, over the whole temperature range if a mount is defined. Checks are made at the assembly
        temperature. Drift over service life is not included. Cost covers station time and scrap, not the
        parts of good assemblies.
      </p>
    </div>
  )
}

/** Where time and scrap are spent. */
export function CostTable({ result }: { readonly result: AssemblyResult }) {
  return (
    <table>
      <caption>Cost per good part by step</caption>
      <thead>
        <tr>
          <th scope="col">Step</th>
          <th scope="col" className="number">
            Reached
          </th>
          <th scope="col" className="number">
            Scrapped
          </th>
          <th scope="col" className="number">
            Reworked
          </th>
          <th scope="col" className="number">
            Time and repeats
          </th>
          <th scope="col" className="number">
            Scrap
          </th>
        </tr>
      </thead>
      <tbody>
        {result.steps.map((step) => (
          <tr key={step.id}>
            <th scope="row">{step.name}</th>
            <td className="number">{percentText(step.reached, 1)}</td>
            <td className="number">{percentText(step.spoiled + step.rejected, 1)}</td>
            <td className="number">{percentText(step.repeated, 1)}</td>
            <td className="number">{grouped(fixedText(step.timeCost, 2))}</td>
            <td className="number">{grouped(fixedText(step.scrapCost, 2))}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

/** The steps by what halving their spread, what they spoil and the uncertainty of their check would gain. */
export function ImprovementTable({ result }: { readonly result: AssemblyResult }) {
  const ranked = result.steps.toSorted((a, b) => b.yieldGain - a.yieldGain)
  const [first] = ranked
  return (
    <>
      <p className="depth-answer">
        {first === undefined || first.yieldGain <= 0
          ? 'Halving the tolerances (±) and the handling scrap of any one step does not raise the yield.'
          : `Halving the tolerances (±) and the handling scrap of “${first.name}” raises the yield most, by ${fixedText(100 * first.yieldGain, 2)} percentage points.`}
      </p>
      <div className="table-beside">
        <table>
          <caption>Gain with one step improved</caption>
          <thead>
            <tr>
              <th scope="col">Step</th>
              <th scope="col" className="number">
                Yield gain, percentage points
              </th>
              <th scope="col" className="number">
                Saved per good part
              </th>
            </tr>
          </thead>
          <tbody>
            {ranked.map((step) => (
              <tr key={step.id}>
                <th scope="row">{step.name}</th>
                <td className="number">{signedText(100 * step.yieldGain, 2)}</td>
                <td className="number">
                  {step.costGain === null ? 'no good part' : signedText(step.costGain, 2)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
        <div>
          <p className="quiet">
            Improved: every ± of the step, its handling scrap and the uncertainty of its check are halved;
            mean shifts are unchanged. Both cases use the same simulated assemblies, so the differences
            contain no sampling noise.
          </p>
        </div>
      </div>
    </>
  )
}
