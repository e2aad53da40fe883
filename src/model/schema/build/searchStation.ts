// As a schema: what was entered of the station that searches first light; the rest is as usual.

import { z } from 'zod'
import { STATION_FIELDS, type StationName } from '../../words/searchStation'
import { open } from '../openObject'

const within = ([least, greatest]: readonly [number, number]) =>
  z.number().min(least).max(greatest).optional()

const fields = Object.fromEntries(STATION_FIELDS.map(({ name, range }) => [name, within(range)])) as Record<
  StationName,
  ReturnType<typeof within>
>

export const searchStationSchema = open(fields)
