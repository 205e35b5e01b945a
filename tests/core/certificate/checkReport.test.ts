import { expect, test } from 'vitest';
import {
  type CheckAnswer,
  type CheckLine,
  checkLineIds,
  checkReport,
} from '../../../core/certificate/checkReport.ts';
import { templateOf } from '../../../core/words/index.ts';

const line = (answer: CheckAnswer): CheckLine => ({
  id: 'signatureIntact',
  answer,
  text: 'check.signature.none',
  values: {},
});

test.each([
  [['yes', 'yes'], 0],
  [['yes', 'unknown'], 2],
  [['yes', 'no'], 1],
  [['unknown', 'no', 'yes'], 1],
  [['unknown', 'unknown'], 2],
] as const)('%j gives exit code %d', (answers, exitCode) => {
  const report = checkReport(answers.map(line));
  expect(report.exitCode).toBe(exitCode);
  expect(report.lines).toHaveLength(answers.length);
});

test('every question and every answer has words', () => {
  for (const id of checkLineIds) expect(templateOf(`check.question.${id}`)).toBeDefined();
  for (const answer of ['yes', 'no', 'unknown']) expect(templateOf(`check.answer.${answer}`)).toBeDefined();
});
