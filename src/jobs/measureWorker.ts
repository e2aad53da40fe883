import { expose } from 'comlink'
import { measureJobs } from './measureJobs'

expose(measureJobs)
