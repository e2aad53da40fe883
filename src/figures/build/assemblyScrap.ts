// Where scrap occurs: for every step the share of all assemblies that it spoils and that it rejects.

import type { AssemblyResult } from '../../analysis/assembly/assemblyResult'
import { fixedText, percentText } from '../../numerics/numberText'
import { type BarSeries, type Chart, chart } from '../chart'
import type { Figure } from '../figure'

const THICKNESS = 0.62
/** The axis holds this much beyond the longest bar, for its number. */
const AROUND = 1.2
const LEAST_SPAN = 1

/** Yield and cost in one sentence. */
function assemblySentence({ yield: good, costPerGood, escaped }: AssemblyResult): string {
  const cost =
    costPerGood === null ? 'no good part' : `time and scrap cost ${fixedText(costPerGood, 2)} per good part`
  const beyond =
    escaped > 0.0005 ? ` ${percentText(escaped, 1)} pass every check but exceed the loss limit.` : ''
  return `${percentText(good, 1)} of the assemblies started become good parts; ${cost}.${beyond}`
}

export function assemblyScrapFigure(result: AssemblyResult): Figure<Chart> {
  const { steps } = result
  const at = steps.map((_, i) => i + 0.5)
  const percent = (share: number) => 100 * share
  const ends = steps.map(({ spoiled, rejected }) => percent(spoiled + rejected))
  const zero = steps.map(() => 0)
  const longest = Math.max(LEAST_SPAN, ...ends) * AROUND
  const bars = (name: string, tone: BarSeries['tone'], from: number[], to: number[]): BarSeries => ({
    kind: 'bars',
    lying: true,
    name,
    at,
    from,
    to,
    thickness: THICKNESS,
    tone,
  })
  const spoiled = steps.map((step) => percent(step.spoiled))
  return {
    id: 'assembly-scrap',
    sentence: assemblySentence(result),
    picture: chart(
      { title: 'Scrap, share of assemblies started', unit: '%', from: 0, to: longest, digits: 2 },
      {
        title: '',
        from: Math.max(1, steps.length),
        to: 0,
        names: steps.map(({ name }, i) => ({ at: i + 0.5, name })),
      },
      [
        bars('handling scrap', 'reflection', zero, spoiled),
        bars('rejected by the check', 'clipping', spoiled, ends),
        {
          ...bars('', 'ink', ends, ends),
          legend: false,
          unread: true,
          thickness: 0,
          labels: ends.map((end) => `${fixedText(end, 1)} %`),
        },
      ],
    ),
    table: {
      columns: [
        { label: 'Step' },
        { label: 'Reached', unit: '%', digits: 2 },
        { label: 'Handling scrap', unit: '%', digits: 2 },
        { label: 'Rejected', unit: '%', digits: 2 },
        { label: 'Time cost per good part', digits: 2 },
        { label: 'Scrap cost per good part', digits: 2 },
        { label: 'Yield gain if halved', unit: 'points', digits: 2 },
      ],
      rows: steps.map((step) => [
        step.name,
        percent(step.reached),
        percent(step.spoiled),
        percent(step.rejected),
        step.timeCost,
        step.scrapCost,
        percent(step.yieldGain),
      ]),
    },
  }
}
