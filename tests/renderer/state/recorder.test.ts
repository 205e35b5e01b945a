import { beforeEach, describe, expect, test } from 'vitest';
import type { Output } from '../../../core/contract/index.ts';
import { createRecorder, hasNoAnswer, RETRY_MS, type Recorder } from '../../../renderer/state/recorder.ts';
import { FakePorts, ok, refusal, settle, storedEvent } from '../fakePorts.ts';

const field = (name: string) => ({
  type: 'fieldRecorded' as const,
  v: 1 as const,
  payload: { field: name, at: { sensor: null, station: null, item: null }, value: 'x', text: 'x' },
});
const reading = { type: 'readingRecorded' as const, v: 1 as const, payload: { reading: 'r' } };

let ports: FakePorts;
let recorder: Recorder;
let seq: number;
let waiting: number;
let recorded: Output<'job.record'>[];

beforeEach(() => {
  ports = new FakePorts();
  seq = 7;
  waiting = 0;
  recorded = [];
  recorder = createRecorder(ports, {
    lastSeq: () => seq,
    onRecorded: (_job, output) => {
      recorded.push(output);
      seq += output.events.length;
    },
    onWaiting: (count) => {
      waiting = count;
    },
  });
});

const command = (commandId: string, entries: Parameters<Recorder['submit']>[0]['entries']) => ({
  job: 'job-1',
  commandId,
  person: 'mira',
  draft: null,
  entries,
});

const answerYes = (): void =>
  ports.answer('job.record', () => ok({ events: [storedEvent(seq + 1, 'fieldRecorded', {})], personal: {} }));

describe('commands of one job', () => {
  test('are sent one after another, each with the sequence the one before made', async () => {
    answerYes();
    const answers = [
      recorder.submit(command('a', [field('a')])),
      recorder.submit(command('b', [field('b')])),
    ];
    expect(waiting).toBe(2);
    await Promise.all(answers);
    expect(ports.inputs('job.record').map((input) => [input.commandId, input.expectedSeq])).toEqual([
      ['a', 7],
      ['b', 8],
    ]);
    expect(waiting).toBe(0);
    expect(recorded).toHaveLength(2);
  });

  test('a reading commutes and carries no expected sequence; with anything else beside it, it does', async () => {
    answerYes();
    await recorder.submit(command('a', [reading]));
    await recorder.submit(command('b', [reading, field('b')]));
    expect(ports.inputs('job.record').map((input) => input.expectedSeq)).toEqual([null, 8]);
  });

  test('a refusal is handed over, records nothing, and does not hold up the next', async () => {
    ports.answer('job.record', () => refusal('journal/behind'));
    const first = await recorder.submit(command('a', [field('a')]));
    expect(first).toMatchObject({ ok: false, error: { code: 'journal/behind' } });
    expect(recorded).toEqual([]);
    answerYes();
    expect((await recorder.submit(command('b', [field('b')]))).ok).toBe(true);
  });
});

describe('a command without an answer', () => {
  test('is sent again with the same id until there is one, and those behind it wait', async () => {
    const first = recorder.submit(command('a', [field('a')]));
    const second = recorder.submit(command('b', [field('b')]));
    await settle();
    await ports.pass(RETRY_MS);
    expect(ports.inputs('job.record').map((input) => input.commandId)).toEqual(['a', 'a']);
    answerYes();
    await ports.pass(RETRY_MS);
    expect((await first).ok).toBe(true);
    expect((await second).ok).toBe(true);
    expect(ports.inputs('job.record').map((input) => input.commandId)).toEqual(['a', 'a', 'a', 'b']);
  });

  test('is sent at once when the service runs again', async () => {
    const first = recorder.submit(command('a', [field('a')]));
    await settle();
    answerYes();
    recorder.wake();
    expect((await first).ok).toBe(true);
    expect(ports.inputs('job.record')).toHaveLength(2);
  });

  test('other jobs do not wait for it', async () => {
    ports.answer('job.record', (input) =>
      input.job === 'job-1' ? refusal('service/interrupted') : ok({ events: [], personal: {} }),
    );
    void recorder.submit(command('a', [field('a')]));
    const other = await recorder.submit({ ...command('b', [field('b')]), job: 'job-2' });
    expect(other.ok).toBe(true);
  });
});

test.each([
  ['call/unreachable', true],
  ['service/interrupted', true],
  ['journal/busy', true],
  ['journal/behind', false],
  ['journal/full', false],
  ['service/fault', false],
])('%s: only a repeat can tell whether it was recorded: %s', (code, expected) => {
  expect(hasNoAnswer({ code, details: {}, traceId: '' })).toBe(expected);
});
