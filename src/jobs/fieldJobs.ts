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
  type RelayTolerance,
  type RelayToleranceRequest,
  relayToleranceSteps,
} from '../analysis/field/relayTolerance'
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
import type { ReportProgress } from './jobRunner'
import { runSteps } from './runSteps'

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
  table: (
    { text, fileName, wavelengthUm }: FieldFile,
    report: ReportProgress,
  ): Promise<Outcome<ImportedShape>> =>
    runSteps(
      attemptedSteps(atOnce(() => importedShape(readFieldTable(text, wavelengthUm), fileName))),
      report,
    ),
  indexMap: (
    { text, fileName, answers }: IndexMapFile,
    report: ReportProgress,
  ): Promise<Outcome<IndexMapReading>> =>
    runSteps(attemptedSteps(atOnce(() => readIndexMap(text, fileName, answers))), report),
  image: (
    { measurement, wavelengthUm }: FieldImage,
    report: ReportProgress,
  ): Promise<Outcome<ImportedShape>> =>
    runSteps(
      attemptedSteps(
        atOnce(() => importedShape(readFieldImage(measurement, wavelengthUm), measurement.fileName)),
      ),
      report,
    ),
  tolerance: (request: FieldToleranceRequest, report: ReportProgress): Promise<Outcome<FieldTolerance>> =>
    runSteps(attemptedSteps(fieldToleranceSteps(request)), report),
  relayTolerance: (
    request: RelayToleranceRequest,
    report: ReportProgress,
  ): Promise<Outcome<RelayTolerance>> => runSteps(attemptedSteps(relayToleranceSteps(request)), report),
  firstLight: (request: FieldSearchRequest, report: ReportProgress): Promise<Outcome<FieldSearch>> =>
    runSteps(attemptedSteps(fieldSearchSteps(request)), report),
  fit: (request: FieldRequest, report: ReportProgress): Promise<FieldAnswer> =>
    runSteps(answerSteps(request), report),
  pictures: (request: FieldPicturesRequest, report: ReportProgress): Promise<Outcome<FieldPictures>> =>
    runSteps(attemptedSteps(fieldPictures(request)), report),
}

export type FieldJobs = typeof fieldJobs
