// Property tests use the same examples in every run, so that a red run is caused by a change in the project.
// Others are looked at on purpose: PROPERTY_SEED=1 npm run unit.

import fc from 'fast-check'

fc.configureGlobal({ seed: Number(process.env.PROPERTY_SEED ?? 1653) })
