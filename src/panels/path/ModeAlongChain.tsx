// The mode along the whole chain: across to scale, along the light not. What every guide and joint does to it at a glance.

import type { Evaluation } from '../../analysis/results/evaluation'
import { elementReferences } from '../../model/project/references'
import { coreValue } from '../../model/quantity/quantity'
import { valueText } from '../../model/quantity/quantityWords'
import type { Candidate, ChainElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { lossText } from '../../ui/text/numbers'
import './modeAlongChain.css'

const HEIGHT = 60
const WIDTH = 100
const FILLED = 0.9

interface Ends {
  readonly from: readonly [x: number, y: number]
  readonly to: readonly [x: number, y: number]
}

interface Stop extends Ends {
  readonly id: string
  readonly guide: boolean
  readonly title: string
  readonly text: string
}

function nameOf(project: Project, element: ChainElement): string {
  const [own] = elementReferences(element)
  return project[own?.list ?? 'fibres'].find((part) => part.id === own?.partId)?.name ?? ''
}

const um = (x: number, y: number) =>
  Math.abs(x - y) < 0.005 ? `${x.toFixed(2)} µm` : `${x.toFixed(2)} × ${y.toFixed(2)} µm`

function joinTitle(element: ChainElement, relay: Evaluation['relays'][number] | undefined): string {
  if (element.kind === 'gap') return `gap ${valueText(element.gap)}`
  if (relay !== undefined) return `relay × ${relay.magnification.toPrecision(3)}`
  return element.kind
}

/** Guides and joins in the order of the light, with the mode's diameters where each begins and ends. */
function stopsOf(project: Project, candidate: Candidate, evaluation: Evaluation): readonly Stop[] {
  const guides = new Map(evaluation.guides.map((guide) => [guide.elementId, guide]))
  const lossOf = (id: string) =>
    evaluation.lines.reduce((sum, line) => sum + (line.elementId === id ? line.lossDb : 0), 0)
  return candidate.chain.flatMap((element, at): readonly Stop[] => {
    const { id } = element
    const own = guides.get(id)
    if (own !== undefined) {
      const { entry, exit } = own
      // Behind a lensed tip the mode is the fibre's until the end face.
      const out = exit.tip === undefined ? exit : { mfdXUm: exit.tip.modeMfdXUm, mfdYUm: exit.tip.modeMfdYUm }
      const from = [entry.mfdXUm, entry.mfdYUm] as const
      const facet = project.facets.find((each) => element.kind === 'facet' && each.id === element.facetId)
      const to =
        facet === undefined
          ? ([out.mfdXUm, out.mfdYUm] as const)
          : ([coreValue(facet.guideWidth, 'guideSize'), coreValue(facet.guideHeight, 'guideSize')] as const)
      const changes = facet === undefined && Math.abs(from[0] - to[0]) > 0.005
      const text = changes ? `${um(...from)} to ${um(...to)}` : um(...from)
      return [{ id, guide: true, title: nameOf(project, element), text, from, to }]
    }
    const before = guides.get(candidate.chain[at - 1]?.id ?? '')?.exit
    const behind = guides.get(candidate.chain[at + 1]?.id ?? '')?.entry
    if (before === undefined || behind === undefined) return []
    const relay = evaluation.relays.find((each) => each.elementId === id)
    return [
      {
        id,
        guide: false,
        title: joinTitle(element, relay),
        text: `${lossText(lossOf(id))} dB`,
        from: [before.tip?.modeMfdXUm ?? before.mfdXUm, before.tip?.modeMfdYUm ?? before.mfdYUm],
        to: [behind.mfdXUm, behind.mfdYUm],
      },
    ]
  })
}

function outline({ from, to }: Ends, axis: 0 | 1, widestUm: number): string {
  const half = (mfdUm: number) => (FILLED * HEIGHT * mfdUm) / (2 * widestUm)
  const [start, end] = [half(from[axis]), half(to[axis])]
  const middle = HEIGHT / 2
  return `0,${middle - start} ${WIDTH},${middle - end} ${WIDTH},${middle + end} 0,${middle + start}`
}

export function ModeAlongChain({
  project,
  candidate,
  evaluation,
}: {
  readonly project: Project
  readonly candidate: Candidate
  readonly evaluation: Evaluation
}) {
  const stops = stopsOf(project, candidate, evaluation)
  const widestUm = Math.max(...stops.flatMap(({ from, to }) => [...from, ...to]))
  return (
    <figure className="mode-strip">
      <figcaption className="visually-hidden">
        The mode along the chain <span className="quiet">x filled, y dashed; across to scale, along not</span>
      </figcaption>
      <ol style={{ gridTemplateColumns: stops.map(({ guide }) => (guide ? '3fr' : '2fr')).join(' ') }}>
        {stops.map((stop) => (
          <li key={stop.id} data-guide={stop.guide}>
            <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} preserveAspectRatio="none" aria-hidden="true">
              <polygon className="mode-x" points={outline(stop, 0, widestUm)} />
              <polygon className="mode-y" points={outline(stop, 1, widestUm)} />
            </svg>
            <span>{stop.title}</span>
            <span className="mode-text">{stop.text}</span>
          </li>
        ))}
      </ol>
    </figure>
  )
}
