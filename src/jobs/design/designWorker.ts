import { expose } from 'comlink'
import { computeFitsHere } from '../../analysis/field/fit/fitHere'
import { announceLife } from '../workerLife'
import { designJobs } from './designJobs'

computeFitsHere()
announceLife()
expose(designJobs)
