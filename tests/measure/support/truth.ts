// The reference files of tests/reference/data/bench and their known answers.

import { readFileSync } from 'node:fs'

const folder = new URL('../../reference/data/bench/', import.meta.url)

export const benchText = (name: string) => readFileSync(new URL(name, folder), 'utf8')
export const benchBytes = (name: string) => new Uint8Array(readFileSync(new URL(name, folder)))

interface Truth {
  wavelengthUm: number
  axisDeg: number
  noise: boolean
  petermann2MfdUm: number
  probeMfdUm: number
  mfdXUm: number
  mfdYUm: number
  centreXUm: number
  centreYUm: number
  majorMfdUm: number
  minorMfdUm: number
  azimuthDeg: number
}

export const truth: Record<string, Truth> = JSON.parse(benchText('truth.json'))
