import { expose } from 'comlink'
import { computeFitsHere } from '../analysis/field/fit/fitHere'
import { measureJobs } from './measureJobs'
import { announceLife } from './workerLife'

computeFitsHere()
announceLife()
expose(measureJobs)
