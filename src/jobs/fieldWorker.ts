import { expose } from 'comlink'
import { fieldJobs } from './fieldJobs'

expose(fieldJobs)
