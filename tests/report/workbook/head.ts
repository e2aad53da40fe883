// The head of a document for tests of single pages.

import type { SheetHead } from '../../../src/report/sheet'

export const HEAD: SheetHead = {
  title: 'Two designs',
  subject: 'Test',
  remark: '',
  revision: '1',
  date: '2026-11-25',
  programVersion: '0',
  checksum: '0'.repeat(64),
  paper: 'A4',
}
