// The review document as JSON for programs: typed numbers with their units, in the shape of reviewSchema.ts; the tables and the
// numbers behind the figures of every section follow in full.

import type { Project } from '../../model/schema/project'
import type { SheetCandidate } from '../candidates'
import { type PlainBlock, plainBlocks, type Section, type TableBlock } from '../document/blocks'
import type { Sheet } from '../sheet'
import { type WindowFigure, windowFigures } from '../summary/windowFigures'
import type { ReviewJson } from './reviewSchema'

type Quantity = ReviewJson['designs'][number]['nominal']
type Design = ReviewJson['designs'][number]
type Table = ReviewJson['sections'][number]['tables'][number]

const quantity = (value: number, unit: string): Quantity => ({ value, unit })
const db = (value: number) => quantity(value, 'dB')
const percent = (share: number) => quantity(100 * share, '%')
const orNull = (value: number | null | undefined, unit: string) =>
  value === null || value === undefined || !Number.isFinite(value) ? null : quantity(value, unit)

const windowJson = ({
  axis,
  unit,
  negative,
  positive,
  station,
}: WindowFigure): Design['windows'][number] => ({
  axis,
  negative: orNull(negative, unit),
  positive: orNull(positive, unit),
  station: quantity(station, unit),
})

function yieldJson({ yield: run }: SheetCandidate): Design['yield'] {
  if (run === null) return null
  return {
    samples: run.samples,
    seed: run.seed,
    limit: db(run.limitDb),
    yield: percent(run.yield),
    from: percent(run.yieldInterval.low),
    to: percent(run.yieldInterval.high),
    percentiles: run.percentiles.map(({ share, lossDb, lowDb, highDb }) => ({
      share: percent(share),
      loss: db(lossDb),
      from: db(lowDb),
      to: db(highDb),
    })),
    tolerances: run.ranking.map(({ label, plusMinus, unit, total, yieldGainHalved }) => ({
      label,
      halfWidth: quantity(plusMinus, unit),
      totalVarianceShare: percent(total),
      yieldGainIfHalved: percent(yieldGainHalved),
    })),
  }
}

function arrayJson({ array: run }: SheetCandidate): Design['array'] {
  if (run === null) return null
  return {
    samples: run.samples,
    seed: run.seed,
    limit: db(run.limitDb),
    strategies: run.aims.map(({ aim, allChannelsYield, allChannelsInterval, worstChannelYield }) => ({
      strategy: aim,
      allChannels: percent(allChannelsYield),
      from: percent(allChannelsInterval.low),
      to: percent(allChannelsInterval.high),
      worstSingleChannel: percent(worstChannelYield),
    })),
  }
}

function temperatureJson({ evaluation: { temperature } }: SheetCandidate): Design['temperature'] {
  if (temperature === null) return null
  const { worstDb, worstC, reachC } = temperature
  return {
    worst: db(worstDb),
    at: quantity(worstC, '°C'),
    withinLimitFrom: orNull(reachC?.[0], '°C'),
    withinLimitTo: orNull(reachC?.[1], '°C'),
  }
}

function designJson(project: Project, candidate: SheetCandidate): Design {
  const { id, name, remark, evaluation, verdicts, lines, inputs } = candidate
  return {
    id,
    name,
    remark,
    nominal: db(evaluation.nominalDb),
    rss: db(evaluation.rootSumSquare.lossDb),
    worstCase: db(evaluation.worstCorner.lossDb),
    temperature: temperatureJson(candidate),
    verdicts: verdicts.map(({ wish, value = '', limit = '', ...each }) => ({
      id: each.id,
      label: each.label,
      status: each.status,
      wish: wish === true,
      found: value,
      limit,
      reason: each.reason,
    })),
    lines: lines.map(({ lossDb, provenance, ...line }) => ({
      id: line.id,
      label: line.label,
      kind: line.kind,
      loss: db(lossDb),
      source: provenance,
    })),
    inputs: inputs.map(({ label, value, unit, tolerance, provenance }) => ({
      label,
      value: quantity(value.value, unit),
      tolerance,
      source: provenance,
    })),
    windows: windowFigures(project, candidate).map(windowJson),
    yield: yieldJson(candidate),
    array: arrayJson(candidate),
  }
}

/** JSON has no infinities; such a number is written as text. */
const tableJson = ({ caption, columns, rows }: TableBlock): Table => ({
  caption,
  columns: columns.map(({ label, unit = '' }) => ({ label, unit })),
  rows: rows.map(({ cells, mark, total }) => ({
    ...(mark !== undefined && { id: mark }),
    ...(total && { total }),
    cells: cells.map((cell) =>
      typeof cell === 'string' ? cell : Number.isFinite(cell.value) ? cell.value : cell.text,
    ),
  })),
})

function textsOf(block: PlainBlock): readonly string[] {
  if (block.kind === 'text' || block.kind === 'title') return [block.text]
  return block.kind === 'list' ? block.items : []
}

function sectionJson({ id, title, remark, blocks }: Section): ReviewJson['sections'][number] {
  const plain = plainBlocks(blocks)
  return {
    id,
    title,
    remark,
    texts: plain.flatMap(textsOf),
    tables: plain.flatMap((block) => (block.kind === 'table' ? [tableJson(block)] : [])),
    figures: plain.flatMap((block) =>
      block.kind === 'figure' ? [{ id: block.id, ...tableJson(block.table) }] : [],
    ),
  }
}

export function reviewJson(
  { head, summary, candidates, refused, sections }: Sheet,
  project: Project,
): string {
  const { paper: _, ...about } = head
  const content: ReviewJson = {
    format: 'modeseam-review',
    version: 2,
    ...about,
    decision:
      summary === null
        ? null
        : {
            designId: summary.decision.designId,
            name: summary.decision.name,
            byEngineer: summary.decision.byEngineer,
            reason: summary.decision.reason,
          },
    risks: [...(summary?.risks ?? [])],
    alternatives: (summary?.alternatives ?? []).map(
      ({ designId, name, nominalDb, percentileDb, reason }) => ({
        designId,
        name,
        nominal: orNull(nominalDb, 'dB'),
        percentile: orNull(percentileDb, 'dB'),
        reason,
      }),
    ),
    missingRuns: (summary?.missing ?? []).map(({ candidateId, kind }) => ({ designId: candidateId, kind })),
    roles: [...(summary?.roles ?? [])],
    designs: candidates.map((each) => designJson(project, each)),
    refused: refused.map(({ id, name, issues }) => ({
      id,
      name,
      reasons: issues.map(({ message }) => message),
    })),
    sections: sections.map(sectionJson),
  }
  return `${JSON.stringify(content, null, 2)}\n`
}
