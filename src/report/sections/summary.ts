// The first page: the decision, what it rests on, the risks, and who signs. One page for any project, so texts
// entered by users are shortened to their line on paper, or to two where the page has lines free; the other formats hold them whole.

import { STATUS_MARKS, statusText } from '../../analysis/results/verdict'
import { waterfallFigure, waterfallHeightPx } from '../../figures/loss/waterfall'
import { mountStacks } from '../../figures/path/pathMount'
import { pathStops } from '../../figures/path/pathStops'
import { pathFigure } from '../../figures/path/pathStrip'
import { textWidthPx } from '../../figures/render/textWidth'
import { leadingLoss } from '../../model/project/lossCriteria'
import { percentileName } from '../../model/project/statedRequirements'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { plainText } from '../../numerics/numberText'
import {
  type Block,
  type Cell,
  type Fit,
  group,
  list,
  type TableBlock,
  table,
  text,
  title,
} from '../document/blocks'
import { fixedCell, lossCell, percentCell } from '../document/cells'
import { figureBlock } from '../document/figureBlock'
import { provisionalText } from '../provisional'
import type { SectionSpec } from '../section'
import type { SheetContext } from '../sheet'
import { foldedSteps } from '../summary/foldedSteps'
import type { LossFigure, YieldFigure } from '../summary/lossFigures'
import { missingText } from '../summary/missingRuns'
import { shortened } from '../summary/shorten'
import type { Decision, Summary } from '../summary/summary'
import { SUMMARY_EXCESS_DB } from '../summary/windowFigures'
import { comparedWith, countsText, withoutLimit, withoutResult } from './verdictWords'

const SUMMARY_ID = 'summary'

/** Requirements that the page has room for. */
export const MOST_VERDICTS = 8
/** Other designs that it has a line for. */
export const MOST_ALTERNATIVES = 8
/** Other lines that it has room for. */
const MOST = { steps: 7, alternatives: MOST_ALTERNATIVES, roles: 6 } as const
/** Widths of the columns of text, px at the page's size; sheetStyle.ts lays them out. */
const ROOM_PX = {
  caption: 1000,
  reason: 1800,
  risk: 470,
  requirement: 200,
  basis: 222,
  name: 150,
  alternative: 340,
  role: 100,
  step: 170,
} as const
const SIZE_PX = 11.5
const STEP_WIDTH_PX = 420
const HEADLINE = { namePx: 330, sizePx: 15 } as const

const CAUTION =
  'Laser light (usually invisible), open facets, glass shards, UV lamps and adhesives can injure. Follow the local laser-safety rules and the instructions of the responsible safety officer.'

type Room = keyof typeof ROOM_PX

/** A second line holds a little less: words are not taken apart. */
const SECOND_LINE = 0.85
const roomOf = (room: Room, lines: 1 | 2) => ROOM_PX[room] * (lines === 1 ? 1 : 1 + SECOND_LINE)
const short = (room: Room, lines: 1 | 2 = 1): Fit => ({
  widthPx: roomOf(room, lines),
  sizePx: SIZE_PX,
  cut: 'middle',
})
/** A sentence says most at its beginning. */
const begun = (room: Room, lines: 1 | 2 = 1): Fit => ({
  widthPx: roomOf(room, lines),
  sizePx: SIZE_PX,
  cut: 'end',
})

const basisOf = ({ reason, found }: Summary['verdicts'][number]) => withoutResult(withoutLimit(reason), found)
const requirementOf = ({ wish, label }: Summary['verdicts'][number]) => (wish ? `Desirable: ${label}` : label)

/** Lines of a row: two where all the rows that need a second one find it among the lines that the page has free. */
function linesOf({ verdicts, alternatives }: Summary): 1 | 2 {
  const isLong = (content: string, room: Room) => textWidthPx(content, SIZE_PX) > ROOM_PX[room]
  const long = [
    ...verdicts.filter(
      (each) => isLong(requirementOf(each), 'requirement') || isLong(basisOf(each), 'basis'),
    ),
    ...alternatives.filter(({ name, reason }) => isLong(name, 'name') || isLong(reason, 'alternative')),
  ]
  const free = MOST_VERDICTS - verdicts.length + MOST_ALTERNATIVES - alternatives.length
  return long.length <= free ? 2 : 1
}

function headline({ name, byEngineer, channels, pitchUm }: Decision): Block {
  const row = channels === 1 ? '' : `, ${channels} channels at ${plainText(pitchUm, 6)} µm`
  const start = byEngineer ? 'Selected: ' : 'Proposed: '
  const widthPx = HEADLINE.namePx + textWidthPx(`${start}${row}`, HEADLINE.sizePx)
  return title(`${start}${name}${row}`, { widthPx, sizePx: HEADLINE.sizePx, cut: 'middle' })
}

function grounds({ byEngineer, reason, counts }: Decision): readonly Block[] {
  const proposal =
    'No design is selected yet; this one has the fewest requirements not met or not evaluated, then the lowest nominal loss.'
  const words = byEngineer ? reason : proposal
  return [text(countsText(counts)), ...(words === '' ? [] : [text(words, begun('reason'))])]
}

/** What the verdict rests on: a loss criterion that states nothing else, on the figure that it limits. */
function basisText(verdict: Summary['verdicts'][number], { requirements }: Project): string {
  const rest = basisOf(verdict)
  const basis = byId(requirements.losses, verdict.id)?.basis ?? ''
  if (rest === '') return basis
  return basis === 'RSS' && verdict.status === 'met' ? `RSS; ${rest}` : rest
}

/** The row for requirements that have none of their own: under the worst of their verdicts, with the count of each where they differ. */
function othersRow(others: Summary['verdicts']): readonly Cell[] {
  const counted = (['not met', 'not known', 'met'] as const).flatMap((status) => {
    const count = others.filter((each) => each.status === status).length
    return count === 0 ? [] : [{ status, words: `${count} ${statusText(status)}` }]
  })
  const { status } = counted[0] ?? { status: 'met' as const }
  const split = counted.length === 1 ? '' : counted.map(({ words }) => words).join(', ')
  return [
    `${STATUS_MARKS[status]} ${statusText(status)}`,
    `${others.length} more, see Requirements`,
    '',
    '',
    split,
  ]
}

function verdictTable({ verdicts }: Summary, project: Project, lines: 1 | 2): TableBlock {
  const rank = { 'not met': 0, 'not known': 1, met: 2 } as const
  const kept = new Set(
    verdicts
      .toSorted((a, b) => rank[a.status] - rank[b.status])
      .slice(0, verdicts.length > MOST_VERDICTS ? MOST_VERDICTS - 1 : MOST_VERDICTS),
  )
  const others = verdicts.filter((each) => !kept.has(each))
  return table(
    'Requirements',
    [
      'Verdict',
      { label: 'Requirement', fit: short('requirement', lines) },
      'Result',
      'Limit',
      { label: 'Basis', fit: begun('basis', lines) },
    ],
    [
      ...verdicts
        .filter((each) => kept.has(each))
        .map((each) => {
          const { id, status, wish, found, limit } = each
          return {
            mark: `summary-${id}`,
            ...(status !== 'met' && !wish && { strong: true }),
            cells: [
              `${STATUS_MARKS[status]} ${statusText(status)}`,
              requirementOf(each),
              found,
              limit,
              basisText(each, project),
            ],
          }
        }),
      ...(others.length === 0 ? [] : [othersRow(others)]),
    ],
    'summary-requirements',
  )
}

const lossRow = ({ id, label, lossDb, intervalDb, basis }: LossFigure) => ({
  mark: `summary-${id}`,
  cells: [
    label,
    lossDb === null ? 'no run' : lossCell(lossDb),
    'dB',
    intervalDb === null
      ? basis
      : `${lossCell(intervalDb[0]).text} to ${lossCell(intervalDb[1]).text} at 95 %`,
  ] as readonly Cell[],
})

function yieldRow({ id, label, share, interval, limitDb, askedShare }: YieldFigure) {
  const asked = askedShare === null ? '' : `, ${plainText(100 * askedShare, 6)} % required`
  const range =
    interval === null
      ? `${id === 'yield' ? 'yield' : 'array'} run missing`
      : `${percentCell(interval[0], 1).text} to ${percentCell(interval[1], 1).text}`
  return {
    mark: `summary-${id}`,
    cells: [
      label,
      share === null ? 'no run' : percentCell(share, 1),
      '%',
      `${range}; limit ${limitDb} dB${asked}`,
    ] as readonly Cell[],
  }
}

const lossTable = ({ losses, yields }: Summary): TableBlock =>
  table(
    'Loss and yield',
    ['Quantity', 'Value', 'Unit', 'Basis'],
    [...losses.map(lossRow), ...yields.map(yieldRow)],
    'summary-loss',
  )

function windowTable({ windows }: Summary): TableBlock {
  const sideCell = (value: number | null): Cell => (value === null ? 'not reached' : fixedCell(value, 2))
  return table(
    `Alignment tolerance at the chip, ${SUMMARY_EXCESS_DB} dB excess loss`,
    ['Axis', 'From', 'To', 'Unit', 'Station ±'],
    windows.map(({ axis, label, unit, negative, positive, station, withinStation }) => ({
      mark: `summary-window-${axis}`,
      ...(!withinStation && { strong: true }),
      cells: [label, sideCell(negative), sideCell(positive), unit, fixedCell(station, 2)],
    })),
    'summary-windows',
  )
}

function alternativeTable({ alternatives, decision }: Summary, project: Project, lines: 1 | 2): TableBlock {
  const percentile = percentileName(leadingLoss(project.requirements).percentile)
  const shown = alternatives.slice(
    0,
    alternatives.length > MOST.alternatives ? MOST.alternatives - 1 : MOST.alternatives,
  )
  const more = alternatives.length - shown.length
  const lossOf = (lossDb: number | null): Cell => (lossDb === null ? '–' : lossCell(lossDb))
  return table(
    'Alternatives considered',
    [
      { label: 'Design', fit: short('name', lines) },
      { label: 'Nominal', unit: 'dB' },
      { label: percentile, unit: 'dB' },
      { label: comparedWith(decision), fit: begun('alternative', lines) },
    ],
    [
      ...shown.map(({ designId, name, nominalDb, percentileDb, reason }) => ({
        mark: `summary-alternative-${designId}`,
        cells: [name, lossOf(nominalDb), lossOf(percentileDb), reason],
      })),
      ...(more === 0 ? [] : [[`${more} more`, '', '', 'see Comparison']]),
    ],
    'summary-alternatives',
  )
}

function path({ project, choice }: SheetContext): readonly Block[] {
  if (choice === null) return []
  const { candidate, evaluation } = choice.candidate
  const stops = pathStops(project, candidate, evaluation)
  return [figureBlock(pathFigure('path', candidate.name, stops, mountStacks(candidate)))]
}

function build(context: SheetContext): readonly Block[] {
  const { summary } = context
  if (summary === null) {
    return [text(context.refused.length === 0 ? 'No design yet.' : 'No design can be evaluated.')]
  }
  const steps = foldedSteps(summary.steps, MOST.steps).map((step) => ({
    ...step,
    tick: shortened(step.label, ROOM_PX.step),
  }))
  const missing = missingText(summary.missing)
  const lines = linesOf(summary)
  const waterfall = figureBlock(
    waterfallFigure('summary-budget', summary.decision.name, steps),
    {
      widthPx: STEP_WIDTH_PX,
      heightPx: waterfallHeightPx(steps.length),
    },
    begun('caption'),
  )
  const provisional = provisionalText(context.candidates)
  const signed = provisional === '' && context.project.review?.left?.includes('sign-off') !== true
  return [
    group(
      'decision',
      headline(summary.decision),
      ...(provisional === '' ? [] : [text(provisional, begun('reason'))]),
      ...grounds(summary.decision),
    ),
    ...path(context),
    verdictTable(summary, context.project, lines),
    group('beside', lossTable(summary), group('stack', title('Loss breakdown, nominal'), waterfall)),
    group(
      'beside',
      ...(summary.windows.length === 0 ? [] : [windowTable(summary)]),
      group(
        'stack',
        title('Main risks'),
        list(
          summary.risks.map((risk) => risk.text),
          begun('risk', lines),
        ),
      ),
    ),
    ...(summary.alternatives.length === 0 ? [] : [alternativeTable(summary, context.project, lines)]),
    ...(missing === '' ? [] : [text(missing)]),
    text(CAUTION),
    ...(signed
      ? [
          {
            kind: 'signatures' as const,
            roles: summary.roles.slice(0, MOST.roles),
            fit: short('role'),
          },
        ]
      : []),
  ]
}

export const summarySection: SectionSpec = { id: SUMMARY_ID, title: 'Summary', build }

/** Whether the first page is omitted, so that what it shows is shown in its own section. */
export const leavesOutSummary = ({ project }: Pick<SheetContext, 'project'>): boolean =>
  project.review?.left?.includes(SUMMARY_ID) === true

/** Whether the first page has a line for everybody who signs. */
export const signsOnSummary = (context: Pick<SheetContext, 'project'>, roles: number): boolean =>
  !leavesOutSummary(context) && roles <= MOST.roles
