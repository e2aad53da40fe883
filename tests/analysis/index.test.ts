import { expect, test, vi } from 'vitest'

test('whoever imports the analysis alone gets real lenses evaluated and simulated, without saying who computes their fits', async () => {
  vi.resetModules()
  const { evaluateCandidate, runYield } = await import('../../src/analysis/index')
  const { demoProject } = await import('../../src/model/index')
  const project = demoProject()
  const { nominalDb, lines } = evaluateCandidate(project, 'relay')
  expect(lines.find(({ kind }) => kind === 'aberration')?.lossDb).toBeGreaterThan(0.1)
  const { p50Db } = runYield(project, 'relay', { samples: 64, rankingPoints: null })
  expect(p50Db).toBeGreaterThan(nominalDb)
})
