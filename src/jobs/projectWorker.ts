import { expose } from 'comlink'
import { projectJobs } from './projectJobs'
import { announceLife } from './workerLife'

announceLife()
expose(projectJobs)
