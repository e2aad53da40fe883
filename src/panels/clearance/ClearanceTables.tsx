// The numbers of clearance: how near, how far turned, how much adhesive, and what would fit where the gap is out of reach.

import { useDeferredValue, useEffect, useMemo, useState } from 'react'
import { adhesivePath } from '../../analysis/clearance/adhesivePath'
import type { ClearanceFinding } from '../../analysis/clearance/findings'
import { type TurnAxis, turnRange } from '../../analysis/clearance/freedom'
import { remediesFor } from '../../analysis/clearance/remedies'
import { assemblyOf } from '../../analysis/yield/assembly'
import { poseContact } from '../../analysis/yield/poseContact'
import { leadingLoss } from '../../model/project/lossCriteria'
import { coreValue } from '../../model/quantity/quantity'
import { spreadEnds, spreadOf } from '../../model/quantity/spread'
import type { GapElement, RelayElement } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { countText, fixedText, grouped, percentText, signedText } from '../../numerics/numberText'
import { attempted } from '../../numerics/outcome'
import { type FactRow, FactTable } from '../../ui/figures/FactTable'

const DEG = 180 / Math.PI
/** A drag is over when nothing has changed for so long. */
const AT_REST_MS = 200
const um = (value: number, decimals = 1) => `${grouped(fixedText(value, decimals))} µm`
const TURNS: readonly (readonly [string, TurnAxis])[] = [
  ['Tilt x before contact', 'axisXRad'],
  ['Tilt y before contact', 'axisYRad'],
  ['Roll before contact', 'rollRad'],
]

function sideText(turnRad: number | null, sign: 1 | -1): string {
  return turnRad === null ? 'no contact' : `${signedText(sign * turnRad * DEG, 2)}°`
}

function turnRows({ setup, pose, gapUm, contact }: ClearanceFinding): readonly FactRow[] {
  const atUm = Math.max(gapUm, contact?.gapUm ?? 0)
  return TURNS.map(([name, axis]): FactRow => {
    const [negative, positive] = turnRange(setup, pose, atUm, axis)
    const free = negative === null && positive === null
    const limit = axis === 'rollRad' ? 180 : 45
    return [
      name,
      free ? `no contact up to ± ${limit}°` : `${sideText(negative, -1)} / ${sideText(positive, 1)}`,
    ]
  })
}

function gapRows({ gapUm, contact }: ClearanceFinding, joint: GapElement | RelayElement): readonly FactRow[] {
  const entered = joint.kind === 'gap' ? joint.gap : joint.backGap
  const [below] = spreadEnds(spreadOf(entered, 'gap'))
  const contactUm = Math.max(0, contact?.gapUm ?? 0)
  return [
    ['Smallest reachable gap', um(contactUm)],
    ['Entered gap', um(gapUm)],
    ['Clearance at the entered gap', um(gapUm - contactUm)],
    ['Clearance at the lower limit of the gap', um(gapUm + below - contactUm)],
    ['First contact', contact === null ? 'none' : `${contact.body}, ${contact.obstacle}`],
    ...(contact === null ? [] : [['Contact at x, y', `${um(contact.xUm)}, ${um(contact.yUm)}`] as const]),
  ]
}

function adhesiveRows({ setup, gapUm, contact }: ClearanceFinding): readonly FactRow[] {
  const path = adhesivePath(setup, Math.max(gapUm, contact?.gapUm ?? 0))
  if (path === null) return []
  const picolitres = (um3: number) => `${grouped(fixedText(um3 / 1000, 1))} pL`
  return [
    ['Bond area', `${countText(Math.round(path.bondAreaUm2))} µm²`],
    ['Adhesive between the faces', picolitres(path.layerUm3)],
    ['End face above the chip surface', um(path.aboveSurfaceUm)],
    ['Longest fillet leg', um(path.filletLegUm)],
    ['Fillet at 45°', picolitres(path.filletUm3)],
  ]
}

/** Contact within the tolerances, each assembly in its own pose; once the design is at rest. */
function usePoseContact(project: Project, designId: string, elementId: string) {
  const [found, setFound] = useState<readonly FactRow[]>([])
  useEffect(() => {
    const timer = setTimeout(() => {
      const clear = leadingLoss(project.requirements).percentile / 100
      const made = attempted(() => {
        const assembly = assemblyOf(project, designId)
        return assembly.ok ? poseContact(assembly.value.compiled, clear, project.seed) : null
      })
      const joint = made.ok ? made.value?.joints.find((each) => each.elementId === elementId) : undefined
      const design = project.candidates.find(({ id }) => id === designId)
      const gap = design?.chain.find(({ id }) => id === elementId)
      if (joint === undefined || gap?.kind !== 'gap') return setFound([])
      const isSet = gap.aligned?.includes('gap') !== true
      const toSet = Math.max(0, coreValue(gap.gap, 'gap') + joint.moreUm)
      setFound([
        ['In contact within tolerances', `${percentText(joint.share, 1)} of assemblies`],
        ...(isSet && Number.isFinite(toSet)
          ? [[`Smallest gap setting for ${percentText(clear, 0)} without contact`, um(toSet)] as const]
          : []),
      ])
    }, AT_REST_MS)
    return () => clearTimeout(timer)
  }, [project, designId, elementId])
  return found
}

/** How near and how far turned, and where adhesive goes. */
export function ClearanceTables({
  project,
  designId,
  joint,
  finding,
}: {
  readonly project: Project
  readonly designId: string
  readonly joint: GapElement | RelayElement
  readonly finding: ClearanceFinding
}) {
  const settled = useDeferredValue(finding)
  const turns = useMemo(() => turnRows(settled), [settled])
  const often = usePoseContact(project, designId, joint.id)
  const filled = project.media.some(({ id, state }) => id === joint.mediumId && state !== 'gas')
  const adhesive = filled ? adhesiveRows(finding) : []
  return (
    <div>
      <FactTable caption="Clearance" rows={[...gapRows(finding, joint), ...often, ...turns]} />
      {adhesive.length > 0 && <FactTable caption="Adhesive path" rows={adhesive} />}
    </div>
  )
}

function assumptionsOf({ setup: { edge, end } }: ClearanceFinding, isGap: boolean): readonly string[] {
  const bare = end !== null && end.outline === undefined
  return [
    'Approach along the optical axis; bodies are rigid, and the chip is as wide as they are. The gap rows are for the nominal pose; within tolerances each assembly has its own offsets, tilts and roll.',
    isGap
      ? 'Budget, tolerances and yield are limited to the smallest reachable gap.'
      : 'The last lens is assumed centred and untilted; budget and tolerances are limited at contact.',
    ...(edge === null ? ['No chip edge given: the chip face is assumed to extend as far as the body.'] : []),
    ...(edge?.grooved === true
      ? ['The V-groove continues through the ledge, so the ledge does not obstruct the fibre.']
      : []),
    ...(bare && end.tipRadiusUm !== undefined
      ? ['No cone given: a half-angle of 36° is assumed behind the cap (common practice, no source).']
      : []),
    ...(bare && !end.isFibre
      ? [`No outline given: a square of ${um(end.acrossUm, 0)} is assumed (common practice, no source).`]
      : []),
    'Tilt and roll are measured from the nominal pose, about the middle of the end face.',
  ]
}

/** Possible remedies where the gap is out of reach, and what all of it takes for granted. */
export function ClearanceAdvice({
  finding,
  isGap,
}: {
  readonly finding: ClearanceFinding
  readonly isGap: boolean
}) {
  const { setup, pose, gapUm, contact, reached } = finding
  return (
    <>
      {contact !== null && !reached && (
        <>
          <h2>Possible remedies</h2>
          <ul className="remedies">
            {remediesFor(setup, pose, gapUm, contact).map((each) => (
              <li key={each}>{each}</li>
            ))}
          </ul>
        </>
      )}
      <p className="quiet">{assumptionsOf(finding, isGap).join(' ')}</p>
    </>
  )
}
