// From file version 1 to 2: one loss limit becomes a list of loss criteria, the return loss is that towards the fibre, the direction of
// light is stated, and a measurement's uncertainty is kept with the tolerance of the part. What is not an object is left for the schema to judge.

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

/** What version 1 wrote after a value that was applied from a measurement. */
const MEASURED_NOTE = /U = \S+ um \(k = 2\)$/

/** The tolerance of an applied measurement was the measurement's uncertainty; the lot's own was lost, and is not known. */
function measuredApart(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(measuredApart)
  if (!isRaw(value)) return value
  const { tolerance, ...rest } = value
  if (value.provenance === 'measured' && MEASURED_NOTE.test(String(value.note)) && isRaw(tolerance)) {
    return { ...rest, uncertainty: { plusMinus: tolerance.plusMinus, coverage: tolerance.coverage ?? 2 } }
  }
  return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, measuredApart(each)]))
}

const PART_LISTS = ['fibres', 'facets', 'converters', 'lenses', 'media', 'candidates'] as const

function designOf(design: Raw): Raw {
  const parts = PART_LISTS.flatMap((list) => (list in design ? [[list, measuredApart(design[list])]] : []))
  return {
    ...design,
    ...Object.fromEntries(parts),
    ...(isRaw(design.requirements) && { requirements: requirementsOf(design.requirements) }),
  }
}

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
