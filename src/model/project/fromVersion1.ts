// From file version 1 to 2: one loss limit becomes a list of loss criteria, the return loss is that towards the fibre, and the
// direction of light is stated. What is not an object is left for the schema to judge.

type Raw = Readonly<Record<string, unknown>>

const isRaw = (value: unknown): value is Raw =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

const BASES: Readonly<Record<string, string>> = { 'root sum square': 'RSS', 'worst corner': 'worst case' }

function criteria(asked: Raw): readonly Raw[] {
  const basis = String(asked.lossBasis)
  const one = {
    id: 'loss',
    limit: asked.lossLimit,
    basis: BASES[basis] ?? basis,
    percentile: asked.lossPercentile,
    channels: 'one',
  }
  // A percentile of several channels was asked of all of them too.
  const ofAll = basis === 'percentile' && Number(asked.channels) > 1
  return ofAll ? [one, { ...one, id: 'all-channels', channels: 'all' }] : [one]
}

function requirementsOf(asked: Raw): Raw {
  const { lossLimit: _, lossBasis: __, lossPercentile: ___, returnLoss, ...rest } = asked
  return {
    ...rest,
    direction: 'fibre to chip',
    losses: criteria(asked),
    ...(returnLoss === undefined ? {} : { returnLossFibre: returnLoss }),
  }
}

const designOf = (design: Raw): Raw =>
  isRaw(design.requirements) ? { ...design, requirements: requirementsOf(design.requirements) } : design

/** The raw file of version 2; kept revisions are lifted with it. */
export function fromVersion1(file: Raw): Record<string, unknown> {
  const { revisions } = file
  return {
    ...designOf(file),
    ...(Array.isArray(revisions) && {
      revisions: revisions.map((each: unknown) =>
        isRaw(each) && isRaw(each.design) ? { ...each, design: designOf(each.design) } : each,
      ),
    }),
  }
}
