// Whether every part of a chain that serves several channels has the pitch of its neighbours.

import { coreValue, type Quantity } from '../../model/quantity/quantity'
import type { Candidate } from '../../model/schema/candidate'
import type { Project } from '../../model/schema/project'
import { byId } from '../../model/words/byId'
import { fixedText } from '../../numerics/numberText'

interface PitchStop {
  readonly label: string
  /** Null where the part does not state one. */
  readonly pitchUm: number | null
}

interface PitchFinding {
  readonly channels: number
  readonly wantedUm: number
  /** Parts along the path; neighbours must agree, and the last with the chip. */
  readonly stops: readonly PitchStop[]
  /** The largest distance by which an outer channel misses its neighbour, um; 0 where all known ones agree. */
  readonly outerErrorUm: number
  /** What does not fit, in words; empty where all known pitches agree. */
  readonly mismatch: string
  /** Parts that state no pitch. */
  readonly unknown: readonly string[]
}

/** Pitches nearer to each other than this are drawn alike, um. */
const SAME_UM = 0.05

const um = (quantity: Quantity) => coreValue(quantity, 'pitch')

/** A change of pitch on the way is treated as its two ends, each against its own neighbour. */
function runs(project: Project, candidate: Candidate): readonly (readonly PitchStop[])[] {
  const sections: PitchStop[][] = [[]]
  const add = (stop: PitchStop) => sections.at(-1)?.push(stop)
  if (candidate.array !== undefined) {
    add({ label: 'fibre array', pitchUm: um(candidate.array.pitch) })
  }
  for (const element of candidate.chain) {
    if (element.kind === 'relay') {
      for (const lensId of new Set([element.lens1Id, element.lens2Id])) {
        const lens = byId(project.lenses, lensId)
        if (lens !== undefined) add({ label: lens.name, pitchUm: lens.pitch ? um(lens.pitch) : null })
      }
    } else if (element.kind === 'taper chip') {
      const chip = byId(project.converters, element.converterId)
      if (chip?.kind !== 'taper chip') continue
      add({ label: `input of ${chip.name}`, pitchUm: um(chip.inputPitch) })
      sections.push([])
      add({ label: `output of ${chip.name}`, pitchUm: um(chip.outputPitch) })
    }
  }
  add({ label: 'chip', pitchUm: um(project.requirements.pitch) })
  return sections
}

/** What is not given, as a sentence without its full stop. */
export function unknownPitchText({ unknown }: PitchFinding): string {
  return `no array pitch is given for ${unknown.join(' and ')}`
}

/** All pitches along the path: `input of Taper chip 127, output of Taper chip 50, chip 50 µm`. */
export function pitchesText({ stops }: PitchFinding): string {
  return `${stops.map(({ label, pitchUm }) => `${label} ${pitchUm ?? 'not given'}`).join(', ')} µm`
}

/** The pitches of a chain, and where they do not fit. */
export function pitchFinding(project: Project, candidate: Candidate): PitchFinding {
  const { channels } = project.requirements
  const sections = runs(project, candidate)
  const stops = sections.flat()
  let outerErrorUm = 0
  let mismatch = ''
  for (const section of sections) {
    const known = section.filter((stop) => stop.pitchUm !== null)
    for (const [i, stop] of known.entries()) {
      const before = known[i - 1]
      if (before === undefined) continue
      const step = Math.abs((stop.pitchUm ?? 0) - (before.pitchUm ?? 0))
      const error = (step * (channels - 1)) / 2
      if (step <= SAME_UM || error <= outerErrorUm) continue
      outerErrorUm = error
      mismatch = `${before.label} has a pitch of ${before.pitchUm} µm, ${stop.label} ${stop.pitchUm} µm; the outer two of ${channels} channels are misaligned by ${fixedText(error, 1)} µm`
    }
  }
  return {
    channels,
    wantedUm: um(project.requirements.pitch),
    stops,
    outerErrorUm,
    mismatch,
    unknown: [...new Set(stops.filter((stop) => stop.pitchUm === null).map((stop) => stop.label))],
  }
}
