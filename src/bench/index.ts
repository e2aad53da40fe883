export { farFieldMfd } from './farFieldMfd'
export { readScan } from './readScan'
