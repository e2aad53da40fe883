// The first page: the decision, what it rests on, the risks, and who signs. One page for any project, so texts
// entered by users are shortened to their line on paper, or to two or three where the page has lines free; the other formats hold them whole.

import { CHIP_EXCESS_DB } from '../../analysis/compare/chipWindows'
import { waterfallFigure, waterfallHeightPx } from '../../figures/loss/waterfall'
import { mountStacks } from '../../figures/path/pathMount'
import { pathStops } from '../../figures/path/pathStops'
import { pathFigure } from '../../figures/path/pathStrip'
import { textWidthPx } from '../../figures/render/textWidth'
import { leadingLoss } from '../../model/project/lossCriteria'
import { percentileName } from '../../model/project/statedRequirements'
import type { Project } from '../../model/schema/project'
import { plainText } from '../../numerics/numberText'
import { type Block, type Cell, group, list, type TableBlock, table, text, title } from '../document/blocks'
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
import { begun, COLUMN_PX, type RowLines, type SummaryColumn, short, TEXT_PX } from './summaryFit'
import { basisOf, MOST_VERDICTS, requirementOf, verdictTable } from './summaryVerdicts'
import { comparedWith, countsText } from './verdictWords'

const SUMMARY_ID = 'summary'

/** Other designs that it has a line for. */
export const MOST_ALTERNATIVES = 8
/** Other lines that it has space for. */
const MOST = { steps: 7, alternatives: MOST_ALTERNATIVES, roles: 6 } as const
const STEP_WIDTH_PX = 420
const HEADLINE = { namePx: 330, sizePx: 15 } as const

const CAUTION =
  'Laser light (usually invisible), open facets, glass shards, UV lamps and adhesives can injure. Follow the local laser-safety rules and the instructions of the responsible safety officer.'

/** Lines of a row: as many as all the rows that are too long for one find among the lines that the page has free. */
function linesOf({ verdicts, alternatives }: Summary): RowLines {
  const isLong = (content: string, column: SummaryColumn) => textWidthPx(content, TEXT_PX) > COLUMN_PX[column]
  const long = [
    ...verdicts.filter(
      (each) => isLong(requirementOf(each), 'requirement') || isLong(basisOf(each), 'basis'),
    ),
    ...alternatives.filter(({ name, reason }) => isLong(name, 'name') || isLong(reason, 'alternative')),
  ]
  const free = MOST_VERDICTS - verdicts.length + MOST_ALTERNATIVES - alternatives.length
  return ([3, 2] as const).find((lines) => long.length * (lines - 1) <= free) ?? 1
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
    `Alignment tolerance at the chip, ${CHIP_EXCESS_DB} dB excess loss; tilts about the facet`,
    ['Axis', 'From', 'To', 'Unit', 'Station ±'],
    windows.map(({ axis, label, unit, negative, positive, station, withinStation, isProvisional }) => ({
      mark: `summary-window-${axis}`,
      ...(!withinStation && { strong: true }),
      cells: [
        isProvisional ? `${label}, provisional` : label,
        sideCell(negative),
        sideCell(positive),
        unit,
        fixedCell(station, 2),
      ],
    })),
    'summary-windows',
  )
}

function alternativeTable(
  { alternatives, decision }: Summary,
  project: Project,
  lines: RowLines,
): TableBlock {
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
    tick: shortened(step.label, COLUMN_PX.step),
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
          begun('risk', lines === 1 ? 1 : 2),
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
