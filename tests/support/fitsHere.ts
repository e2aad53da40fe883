// Tests and benches may wait: fits of real joints are computed on the spot.

import { computeFitsHere } from '../../src/analysis/field/fit/fitHere'

computeFitsHere()
