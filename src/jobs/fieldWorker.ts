import { expose } from 'comlink'
import { fieldJobs } from './fieldJobs'
import { announceLife } from './workerLife'

announceLife()
expose(fieldJobs)
