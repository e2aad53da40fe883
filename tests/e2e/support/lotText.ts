// Text of a lot file: the losses that the demo's first design would give with every tolerance twice as wide.

import { lotDraw } from '../../../src/analysis/production/lotLayout'
import { lotSimulator } from '../../../src/analysis/production/lotSimulator'
import { demoProject } from '../../../src/model/index'

export function lotText(assemblyCount: number): string {
  const project = demoProject()
  const made = lotSimulator(project, project.candidates[0]!.id, 77)
  if (!made.ok) throw new Error('no simulator')
  const { channels, tolerances } = made.value
  const rows = Array.from({ length: assemblyCount * channels }, (_, i) => i)
  const layout = {
    assemblyOf: rows.map((i) => Math.floor(i / channels)),
    channelOf: rows.map((i) => i % channels),
    assemblies: assemblyCount,
    channels,
    standardDb: 0.1,
  }
  const losses = lotDraw(made.value, layout, 78)(0, new Float64Array(tolerances.length).fill(2))
  const lines = rows.map((i) => {
    const assembly = Math.floor(i / channels)
    const day = String(1 + (assembly % 28)).padStart(2, '0')
    return `SN-${assembly + 1};${1 + (i % channels)};${losses[i]!.toFixed(3).replace('.', ',')};2026-0${assembly < 28 ? 2 : 3}-${day};W${1 + Math.floor(assembly / 10)}`
  })
  return `Assembly;Channel;Insertion loss [dB];Date;Wafer\n${lines.join('\n')}\n`
}
