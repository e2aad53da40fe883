import { expose } from 'comlink'
import { modeJobs } from './modeSolveJobs'

expose(modeJobs)
