import { describe, expect, test } from 'vitest';
import { eventHash, GENESIS } from '../../../core/job/event.ts';
import { personalCommitment } from '../../../core/job/personal.ts';
import { openReader } from '../../../electron/service/journal/index.ts';
import {
  append,
  context,
  fact,
  freshFolder,
  id,
  must,
  openedJob,
  openedJournal,
  options,
  reading,
  request,
} from './shopFolder.ts';

describe('a command', () => {
  test('records its entries with everything that an event carries', () => {
    const journal = openedJournal();
    const job = id();
    const ctx = context();
    const commandId = id();
    const entries = [fact({ plate: 'HB-DL 1' }, 'jobOpened'), reading(1350.5)];
    const answer = must(journal.append({ job, commandId, expectedSeq: 0, entries, ctx }));
    expect(answer.repeated).toBe(false);
    const [first, second] = answer.events;
    expect(first?.event).toEqual({
      store: journal.storeId,
      job,
      seq: 1,
      storeSeq: 1,
      type: 'jobOpened',
      v: 1,
      at: ctx.at,
      person: 'p1',
      device: 'bay-pc',
      app: '0.1.0-test',
      commandId,
      payload: { plate: 'HB-DL 1' },
      prevInJob: GENESIS,
      prevInStore: GENESIS,
    });
    expect(second?.event).toMatchObject({
      seq: 2,
      storeSeq: 2,
      prevInJob: first?.hash,
      prevInStore: first?.hash,
    });
    expect(answer.events.map(({ hash }) => hash)).toEqual(answer.events.map(({ text }) => eventHash(text)));
    expect(must(journal.readJob(job)).events).toEqual(answer.events);
  });

  test('chains each job to itself and all jobs to each other', () => {
    const journal = openedJournal();
    const [a, b] = [id(), id()];
    const first = append(journal, a, [fact()]).events[0];
    const second = append(journal, b, [fact()]).events[0];
    const third = append(journal, a, [fact()]).events[0];
    expect(second?.event).toMatchObject({
      seq: 1,
      storeSeq: 2,
      prevInJob: GENESIS,
      prevInStore: first?.hash,
    });
    expect(third?.event).toMatchObject({
      seq: 2,
      storeSeq: 3,
      prevInJob: first?.hash,
      prevInStore: second?.hash,
    });
    expect(must(journal.head())).toEqual({ seq: 3, hash: third?.hash });
  });

  test('sent again gives the first answer again and records nothing', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    const sent = request(id(), [fact({ name: { personal: 'Ada Buoy' } }), reading(1)], { expectedSeq: 0 });
    const first = must(journal.append(sent));
    append(journal, sent.job, [reading(2)]);
    const again = must(journal.append({ ...sent, ctx: context({ person: 'p2' }) }));
    expect(again).toEqual({ ...first, repeated: true });
    expect(must(journal.readJob(sent.job)).events).toHaveLength(3);
    expect(must(journal.answerTo(sent.commandId))).toEqual(again);
    expect(must(journal.answerTo(id()))).toBeUndefined();
  });

  test.each([
    ['another job', { job: id() }],
    ['another kind of entry', { entries: [fact({}, 'otherThing')] }],
    ['more entries', { entries: [fact(), fact()] }],
  ])('whose id was used for %s is refused', (_name, change) => {
    const journal = openedJournal();
    const sent = request(id(), [fact()]);
    must(journal.append(sent));
    expect(journal.append({ ...sent, ...change })).toMatchObject({
      error: { code: 'journal/commandReused', details: { commandId: sent.commandId } },
    });
  });

  test('with one bad entry records none of its entries, texts or cleared drafts', () => {
    const journal = openedJournal();
    const job = openedJob(journal, 0);
    must(journal.saveDraft(job, 'remark', 'half a wor', 1));
    const before = must(journal.head());
    const refused = journal.append(
      request(job, [fact({ name: { personal: 'Ada Buoy' } }), fact({ bad: 1 })], {
        clearsDrafts: ['remark'],
      }),
    );
    expect(refused).toEqual({
      ok: false,
      error: { code: 'journal/badEntry', details: { type: 'fieldRecorded', problem: 'bad is not allowed' } },
    });
    expect(must(journal.head())).toEqual(before);
    expect(must(journal.readJob(job)).personal).toEqual([]);
    expect(must(journal.drafts(job))).toHaveLength(1);
  });

  test.each([
    ['no entries', []],
    ['an unknown version', [{ type: 'fieldRecorded', v: 2, payload: {} }]],
    ['a type that is no name', [fact({}, 'Not a name')]],
    ['a value that JSON cannot carry', [fact({ value: Number.NaN })]],
    ['a lone surrogate', [fact({ text: '\ud800' })]],
  ])('with %s is refused', (_name, entries) => {
    const journal = openedJournal();
    expect(journal.append(request(id(), entries))).toMatchObject({ error: { code: 'journal/badEntry' } });
    expect(must(journal.head()).seq).toBe(0);
  });
});

describe('the expected sequence', () => {
  test('that is behind names what the sender has not seen', () => {
    const journal = openedJournal();
    const job = openedJob(journal, 3);
    expect(journal.append(request(job, [fact()], { expectedSeq: 1 }))).toEqual({
      ok: false,
      error: {
        code: 'journal/behind',
        details: { job, expectedSeq: 1, actualSeq: 4, missing: { from: 2, to: 4 } },
      },
    });
    expect(must(journal.readJob(job)).events).toHaveLength(4);
  });

  test('that is ahead of the record is refused too', () => {
    const journal = openedJournal();
    const job = openedJob(journal, 0);
    expect(journal.append(request(job, [fact()], { expectedSeq: 9 }))).toMatchObject({
      error: { code: 'journal/behind', details: { expectedSeq: 9, actualSeq: 1 } },
    });
  });

  test('is not asked of readings, but of readings that come with something else', () => {
    const journal = openedJournal();
    const job = openedJob(journal, 3);
    expect(append(journal, job, [reading(7)], { expectedSeq: 1 }).events[0]?.event.seq).toBe(5);
    const mixed = journal.append(request(job, [reading(8), fact()], { expectedSeq: 1 }));
    expect(mixed).toMatchObject({ error: { code: 'journal/behind' } });
  });

  test('0 opens a job once', () => {
    const journal = openedJournal();
    const job = id();
    append(journal, job, [fact()], { expectedSeq: 0 });
    expect(journal.append(request(job, [fact()], { expectedSeq: 0 }))).toMatchObject({
      error: { code: 'journal/behind' },
    });
  });
});

describe('personal texts', () => {
  test('stand outside the event, which commits to them', () => {
    const journal = openedJournal();
    const job = id();
    const answer = append(journal, job, [fact({ owner: { name: { personal: 'Ada Buoy' } } })]);
    const [text] = answer.personal;
    expect(text).toMatchObject({ text: 'Ada Buoy' });
    expect(answer.events[0]?.event.payload).toEqual({
      owner: { name: { personalId: text?.id, commitment: personalCommitment(text?.salt ?? '', 'Ada Buoy') } },
    });
    expect(answer.events[0]?.text).not.toContain('Ada');
    expect(must(journal.personal(text?.id ?? ''))).toEqual(text);
    expect(must(journal.readJob(job)).personal).toEqual([text]);
    expect(must(journal.personal(id()))).toBeUndefined();
  });

  test('the same text twice has two salts, so that equal texts do not show', () => {
    const journal = openedJournal();
    const { events } = append(journal, id(), [fact({ a: { personal: 'x' }, b: { personal: 'x' } })]);
    const { a, b } = events[0]?.event.payload ?? {};
    expect(a).not.toEqual(b);
  });

  test('are checked by the rules as commitments, never as texts', () => {
    const seen: unknown[] = [];
    const journal = openedJournal(freshFolder(), {
      checkPayload: (_type, _v, payload) => {
        seen.push(payload);
        return undefined;
      },
    });
    append(journal, id(), [fact({ name: { personal: 'Ada Buoy' } })]);
    expect(JSON.stringify(seen)).toContain('commitment');
    expect(JSON.stringify(seen)).not.toContain('Ada');
  });

  test('erasing deletes text and salt; chain and record stay whole', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    const job = id();
    const { personal } = append(journal, job, [fact({ name: { personal: 'Ada Buoy' } })]);
    const ids = personal.map((each) => each.id);
    append(journal, job, [fact({ personalIds: ids, reason: 'asked' }, 'erased')], { erases: ids });
    expect(must(journal.readJob(job)).personal).toEqual([]);
    expect(must(journal.verify())).toMatchObject({ findings: [], damage: [] });
    const reader = must(openReader(folder, options));
    expect(must(reader.readJob(job)).personal).toEqual([]);
    reader.close();
  });

  test('erasing only reaches the texts of the same job', () => {
    const journal = openedJournal();
    const [a, b] = [id(), id()];
    const { personal } = append(journal, a, [fact({ name: { personal: 'Ada Buoy' } })]);
    const ids = personal.map((each) => each.id);
    append(journal, b, [fact({ personalIds: ids }, 'erased')], { erases: ids });
    expect(must(journal.readJob(a)).personal).toHaveLength(1);
  });
});

describe('drafts', () => {
  test('are kept, replaced, listed by job and dropped', () => {
    const journal = openedJournal();
    const [a, b] = [id(), id()];
    must(journal.saveDraft(a, 'vin', 'WHB', 100));
    must(journal.saveDraft(a, 'odometer', '45', 200));
    must(journal.saveDraft(a, 'vin', 'WHB4', 300));
    must(journal.saveDraft(b, 'vin', 'x', 400));
    expect(must(journal.drafts(a))).toEqual([
      { field: 'odometer', text: '45', savedAtUtcMs: 200 },
      { field: 'vin', text: 'WHB4', savedAtUtcMs: 300 },
    ]);
    must(journal.dropDraft(a, 'vin'));
    expect(must(journal.drafts(a)).map((draft) => draft.field)).toEqual(['odometer']);
    expect(must(journal.drafts(b))).toHaveLength(1);
  });

  test('are cleared together with the entry that they became, and no others', () => {
    const folder = freshFolder();
    const journal = openedJournal(folder);
    const job = openedJob(journal, 0);
    for (const field of ['vin', 'odometer']) must(journal.saveDraft(job, field, 'x', 1));
    append(journal, job, [fact({ vin: 'x' })], { clearsDrafts: ['vin'] });
    journal.close();
    expect(must(openedJournal(folder).drafts(job)).map((draft) => draft.field)).toEqual(['odometer']);
  });

  test('leave no mark on the record', () => {
    const journal = openedJournal();
    const job = openedJob(journal, 1);
    const before = must(journal.head());
    must(journal.saveDraft(job, 'vin', 'W', 1));
    expect(must(journal.head())).toEqual(before);
  });
});
