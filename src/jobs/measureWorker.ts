import { expose } from 'comlink'
import { measureJobs } from './measureJobs'
import { announceLife } from './workerLife'

announceLife()
expose(measureJobs)
