import { expose } from 'comlink'
import { modeJobs } from './modeSolveJobs'
import { announceLife } from './workerLife'

announceLife()
expose(modeJobs)
