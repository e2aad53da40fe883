// What a yield of one channel leaves out where there are several, with the yield of all of them where it is known.

import type { Project } from '../../model/schema/project'
import { useFreshRuns } from '../../store/runs'
import { shareText } from '../../ui/jobs/YieldNumbers'

export function OneChannelNote({
  project,
  candidateId,
}: {
  readonly project: Project
  readonly candidateId: string
}) {
  const array = useFreshRuns('array', project).get(candidateId)
  const { channels } = project.requirements
  if (channels < 2) return null
  const found = array?.aims.find((each) => each.aim === array.aim) ?? array?.aims[0]
  return (
    <p>
      Single channel, positioned individually: core positions and pitch have no effect.{' '}
      {found === undefined ? (
        `For all ${channels} channels of an array together, see Array.`
      ) : (
        <>
          All {channels} channels pass together in <strong>{shareText(found.allChannelsYield)}</strong> of
          arrays (Array).
        </>
      )}
    </p>
  )
}
