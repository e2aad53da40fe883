// Fields of joints as plain functions: run by the worker, by tests, and on the page where there is no worker.

import { type Refusable, refusable } from '../analysis/crossSection/refusable'
import { type FieldPictures, type FieldPicturesRequest, fieldPictures } from '../analysis/field/fieldPictures'
import {
  type FieldTolerance,
  type FieldToleranceRequest,
  fieldToleranceSteps,
} from '../analysis/field/fieldTolerance'
import type { Tell } from './jobRunner'
import { walked } from './walked'

export const fieldJobs = {
  tolerance: (request: FieldToleranceRequest, tell: Tell): Promise<Refusable<FieldTolerance>> =>
    walked(refusable(fieldToleranceSteps(request)), tell),
  pictures: (request: FieldPicturesRequest, tell: Tell): Promise<Refusable<FieldPictures>> =>
    walked(refusable(fieldPictures(request)), tell),
}

export type FieldJobs = typeof fieldJobs
