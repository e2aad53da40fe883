// Fields of joints as plain functions: run by the worker, by tests, and on the page if workers are blocked.

import { type FieldPictures, type FieldPicturesRequest, fieldPictures } from '../analysis/field/fieldPictures'
import {
  type FieldTolerance,
  type FieldToleranceRequest,
  fieldToleranceSteps,
} from '../analysis/field/fieldTolerance'
import { answerSteps } from '../analysis/field/fit/fitHere'
import type { FieldAnswer, FieldRequest } from '../analysis/field/fit/knownFits'
import {
  type FieldSearch,
  type FieldSearchRequest,
  fieldSearchSteps,
} from '../analysis/firstLight/fieldSearch'
import {
  type IndexMapReading,
  importedShape,
  readFieldImage,
  readFieldTable,
  readIndexMap,
  type ScanAnswers,
} from '../measure/index'
import type { MeasurementOf } from '../model/schema/measurement'
import type { ImportedShape } from '../model/schema/modeShape'
import { attemptedSteps, type Outcome } from '../numerics/outcome'
import type { Tell } from './jobRunner'
import { walked } from './walked'

interface FieldFile {
  readonly text: string
  readonly fileName: string
  readonly wavelengthUm: number
}

interface IndexMapFile {
  readonly text: string
  readonly fileName: string
  readonly answers: ScanAnswers
}

interface FieldImage {
  readonly measurement: MeasurementOf<'image'>
  readonly wavelengthUm: number
}

/** Work in one step. */
function* atOnce<T>(work: () => T): Generator<number, T, void> {
  yield 0
  return work()
}

export const fieldJobs = {
  table: ({ text, fileName, wavelengthUm }: FieldFile, tell: Tell): Promise<Outcome<ImportedShape>> =>
    walked(attemptedSteps(atOnce(() => importedShape(readFieldTable(text, wavelengthUm), fileName))), tell),
  indexMap: ({ text, fileName, answers }: IndexMapFile, tell: Tell): Promise<Outcome<IndexMapReading>> =>
    walked(attemptedSteps(atOnce(() => readIndexMap(text, fileName, answers))), tell),
  image: ({ measurement, wavelengthUm }: FieldImage, tell: Tell): Promise<Outcome<ImportedShape>> =>
    walked(
      attemptedSteps(
        atOnce(() => importedShape(readFieldImage(measurement, wavelengthUm), measurement.fileName)),
      ),
      tell,
    ),
  tolerance: (request: FieldToleranceRequest, tell: Tell): Promise<Outcome<FieldTolerance>> =>
    walked(attemptedSteps(fieldToleranceSteps(request)), tell),
  firstLight: (request: FieldSearchRequest, tell: Tell): Promise<Outcome<FieldSearch>> =>
    walked(attemptedSteps(fieldSearchSteps(request)), tell),
  fit: (request: FieldRequest, tell: Tell): Promise<FieldAnswer> => walked(answerSteps(request), tell),
  pictures: (request: FieldPicturesRequest, tell: Tell): Promise<Outcome<FieldPictures>> =>
    walked(attemptedSteps(fieldPictures(request)), tell),
}

export type FieldJobs = typeof fieldJobs
