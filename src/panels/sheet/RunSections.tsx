// Yield, array and temperature on the sheet: runs made from the numbers of this sheet, each with what it assumes.

import type { ArrayResult, ChannelResult } from '../../analysis/array/runArray'
import type { YieldResult } from '../../analysis/yield/yieldResult'
import type { SheetCandidate } from '../../report/sheet'
import { AimTable, blocksText } from '../array/AimTable'
import { ArrayTighten } from '../array/ArrayTighten'
import { lossText } from '../candidate/numbers'
import { celsius, MovementTable } from '../temperature/MovementTable'
import { RANKING_METHOD, RankingTable } from '../yield/Ranking'
import { shareText, YieldNumbers } from '../yield/YieldNumbers'

/** Tolerances that make less of the variance than this stay off the paper. */
const WORTH_A_LINE = 0.005

export function RunSections({ candidate }: { readonly candidate: SheetCandidate }) {
  const { yield: run, array, temperature } = candidate
  return (
    <>
      <h3>Yield</h3>
      {run === null ? <p className="quiet">No yield run of these numbers.</p> : <Yield run={run} />}
      {array !== null && <ArraySection array={array} />}
      {temperature !== null && (
        <>
          <h3>Temperature</h3>
          <p>
            Aligned at {celsius(temperature.assemblyC)} with {lossText(temperature.atAssemblyDb)} dB; worst
            nominal {lossText(temperature.worstDb)} dB at {celsius(temperature.worstC)}.
          </p>
          <MovementTable movements={temperature.movements} />
        </>
      )}
    </>
  )
}

function Yield({ run }: { readonly run: YieldResult }) {
  return (
    <>
      <YieldNumbers result={run} before={null} />
      {run.ranking.length > 0 && (
        <>
          <RankingTable lines={run.ranking.filter((each) => each.total >= WORTH_A_LINE)} />
          <p className="quiet">{RANKING_METHOD}</p>
        </>
      )}
      <Assumptions texts={run.assumptions} />
    </>
  )
}

function ArraySection({ array }: { readonly array: ArrayResult }) {
  const shown = array.aims.find(({ aim }) => aim === array.aim) ?? array.aims[0]
  return (
    <>
      <h3>Array of {array.aims[0]?.channels.length} channels</h3>
      <AimTable result={array} />
      <p className="quiet">{blocksText(array)}</p>
      {shown !== undefined && <ChannelTable channels={shown.channels} aim={shown.aim} />}
      <ArrayTighten result={array} />
      <Assumptions texts={array.assumptions} />
    </>
  )
}

function ChannelTable({
  channels,
  aim,
}: {
  readonly channels: readonly ChannelResult[]
  readonly aim: string
}) {
  return (
    <table>
      <caption>Loss of every channel, dB, placed for {aim}</caption>
      <thead>
        <tr>
          <th scope="col">Channel</th>
          {['On paper', 'P5', 'P50', 'P95', 'Within the limit'].map((head) => (
            <th key={head} scope="col" className="number">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {channels.map((each) => (
          <tr key={each.channel}>
            <th scope="row">{each.channel}</th>
            {[each.nominalDb, each.p5Db, each.p50Db, each.p95Db].map((lossDb, at) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: the columns are fixed
              <td key={at} className="number">
                {lossText(lossDb)}
              </td>
            ))}
            <td className="number">{shareText(each.yield)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function Assumptions({ texts }: { readonly texts: readonly string[] }) {
  return (
    <ul className="quiet">
      {texts.map((text) => (
        <li key={text}>{text}</li>
      ))}
    </ul>
  )
}
