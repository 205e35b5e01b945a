import { describe, expect, test } from 'vitest';
import { recordedProcedure, withProcedure } from '../../../core/job/shopProcedures.ts';
import { checkProcedure, isReviewed, type Procedure } from '../../../core/procedure/index.ts';
import { invariant } from '../../../core/result.ts';
import { procedureFileText, readProcedureFile } from '../../../renderer/state/procedureFile.ts';
import { procedureOfDraft } from '../../../renderer/state/procedureOfDraft.ts';
import {
  againstReview,
  differingAgain,
  fieldsAgain,
  readReviewRequest,
  reviewedByOwnEntry,
  reviewedBySecond,
  reviewReply,
  reviewRequest,
  withReviewReply,
} from '../../../renderer/state/procedureReview.ts';
import { procedureValues } from '../../../renderer/state/procedureValues.ts';
import { shop } from '../demoHeld.ts';
import { context, typed } from './typedProcedure.ts';

const made = procedureOfDraft({ ...typed, page: { digest: 'd'.repeat(64), kind: 'pdf' } }, context);
invariant(made.ok, 'the sheet is whole');
const entered: Procedure = made.value;
const holding = withProcedure(shop, entered);
const author = context.enteredBy;

describe('a second person', () => {
  test('is not who entered it', () => {
    expect(againstReview(entered, 'secondPerson', author, '2026-11-26')).toBe('review.against.own');
    expect(againstReview(entered, 'secondPerson', 'Greta Anchor', '2026-11-25')).toBeUndefined();
  });

  test('leaves a name, a day and how many values were looked at, and the service takes it', () => {
    const done = reviewedBySecond(entered, 'Greta Anchor', '2026-11-26');
    expect(done.source).toMatchObject({
      reviewedBy: 'Greta Anchor',
      reviewWay: 'secondPerson',
      review: { on: '2026-11-26', values: procedureValues(entered).length },
    });
    expect(isReviewed(done)).toBe(true);
    expect(recordedProcedure(holding, 'Greta Anchor', done).ok).toBe(true);
  });
});

describe('the same person again', () => {
  const fields = fieldsAgain(entered);
  const again = Object.fromEntries(fields.map((each) => [each.where, each.first]));

  test('on another day only, and nobody else', () => {
    expect(againstReview(entered, 'ownSecondEntry', author, '2026-11-25')).toBe('review.against.sameDay');
    expect(againstReview(entered, 'ownSecondEntry', author, '2026-11-26')).toBeUndefined();
    expect(againstReview(entered, 'ownSecondEntry', 'Greta Anchor', '2026-11-26')).toBe(
      'review.against.other',
    );
  });

  test('types every number of every station, without a sign', () => {
    expect(fields.map((each) => each.where)).toEqual([
      'source.document',
      'source.section',
      'target.width',
      'target.height',
      'stations.station1.ahead',
      'stations.station1.ahead.tolerance.0',
      'stations.station1.left',
      'stations.station1.up',
      'stations.station1.yaw',
      'stations.station1.pitch',
      'stations.station1.roll',
    ]);
    const side = fields.find((each) => each.where === 'stations.station1.left');
    expect(side).toMatchObject({ first: '20 mm', way: "to the car's right" });
  });

  test('agrees when the numbers do, however they are written', () => {
    expect(differingAgain(fields, again)).toEqual([]);
    const otherwise = {
      ...again,
      'stations.station1.ahead': '1,5 m',
      'stations.station1.up': '1349.375 mm',
      'target.height': '84 cm',
      'source.document': again['source.document']?.toUpperCase() ?? '',
    };
    expect(differingAgain(fields, otherwise)).toEqual([]);
  });

  test('differs when one number does, and says which', () => {
    const slip = { ...again, 'stations.station1.up': '53 1/4 in' };
    expect(differingAgain(fields, slip).map((each) => [each.where, each.first])).toEqual([
      ['stations.station1.up', '53 1/8 in'],
    ]);
    expect(differingAgain(fields, { ...again, 'source.section': '' })).toHaveLength(1);
    expect(differingAgain(fields, { ...again, 'stations.station1.ahead': 'about' })).toHaveLength(1);
  });

  test('is taken by the service for the next day and refused for the same', () => {
    expect(recordedProcedure(holding, author, reviewedByOwnEntry(entered, '2026-11-26')).ok).toBe(true);
    const same = recordedProcedure(holding, author, reviewedByOwnEntry(entered, '2026-11-25'));
    expect(same).toEqual({ ok: false, error: 'procedure/reviewNotFitting' });
  });
});

describe('another shop', () => {
  const request = reviewRequest(entered, 'Quayside');
  const read = readReviewRequest(request);
  invariant(read.ok, 'the request reads');
  const reply = reviewReply(read.value.procedure, 'Pier Nine', 'Nora Pilot', '2026-11-27');

  test('gets the procedure without the page, and its reply fits what is here', () => {
    expect(read.value.shop).toBe('Quayside');
    expect(read.value.procedure.source.page).toBeUndefined();
    expect(request).not.toContain('d'.repeat(64));
    const done = withReviewReply(entered, reply);
    invariant(done.ok, JSON.stringify(done));
    expect(done.value.source).toMatchObject({
      reviewedBy: 'Nora Pilot',
      reviewWay: 'otherShop',
      page: { digest: 'd'.repeat(64) },
      review: { on: '2026-11-27', shop: 'Pier Nine' },
    });
    expect(checkProcedure(done.value)).toEqual([]);
    expect(recordedProcedure(holding, 'Greta Anchor', done.value).ok).toBe(true);
  });

  test('a request that was changed on its way is none', () => {
    const changed = request.replace('1500 mm', '1400 mm');
    expect(changed).not.toBe(request);
    const answer = readReviewRequest(changed);
    expect(!answer.ok && answer.error).toMatch(/digest/);
  });

  test('a reply about an earlier state is none', () => {
    const answer = withReviewReply({ ...entered, title: 'Changed since' }, reply);
    expect(!answer.ok && answer.error).toMatch(/earlier state/);
  });

  test('a reply in the name of who entered it is none', () => {
    const own = withReviewReply(entered, reviewReply(entered, 'Pier Nine', author, '2026-11-27'));
    expect(own.ok).toBe(false);
  });

  test.each(['', '{', '[]', '{"format":"datumline-review-reply-1"}', request, 'x'.repeat(600_000)])(
    'what is no reply is refused in words',
    (text) => {
      const answer = withReviewReply(entered, text);
      expect(!answer.ok && answer.error).toMatch(/no reply/);
    },
  );

  test.each(['', '{', reply])('what is no request is refused in words', (text) => {
    const answer = readReviewRequest(text);
    expect(!answer.ok && answer.error).toMatch(/no request/);
  });
});

test('a file of a procedure reads again as it was, and leaves the page at home', () => {
  const text = procedureFileText(entered);
  const read = readProcedureFile(text);
  invariant(read.ok, 'it reads');
  const { page: _page, ...source } = entered.source;
  expect(read.value).toEqual({ ...entered, source });
  expect(text).not.toContain('d'.repeat(64));
});
