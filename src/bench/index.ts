export { farFieldMfd } from './farFieldMfd'
export { offsetScanMfd } from './offsetScanMfd'
export { readScan } from './readScan'
