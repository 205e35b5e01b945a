import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { eventHash, GENESIS, parseEvent } from '../../../core/job/event.ts';
import {
  type ChainFinding,
  type ChainLink,
  verifyJobChain,
  verifyStoreChain,
} from '../../../core/job/eventChain.ts';
import { chainOfEvents, envelope, JOB, OTHER_JOB, STORE, storeOfEvents, textOf } from './chainOfEvents.ts';

const SEED = 878_500;
const LENGTH = 6;
const texts = chainOfEvents(LENGTH);

function headOf(list: readonly string[]): ChainLink {
  return { seq: list.length, hash: eventHash(list.at(-1) ?? '') };
}

function findingsOf(list: readonly string[], anchors: readonly ChainLink[] = []): readonly ChainFinding[] {
  return verifyJobChain(JOB, list, anchors).findings;
}

/** The list with one text changed. */
function withChanged(seq: number, change: (text: string) => string): readonly string[] {
  return texts.map((text, index) => (index === seq - 1 ? change(text) : text));
}

/** Chains the texts from `fromSeq` on anew, as somebody would who wants to hide a change. */
function rechained(list: readonly string[], fromSeq: number): readonly string[] {
  const done = [...list];
  for (let index = fromSeq - 1; index < done.length; index += 1) {
    const parsed = parseEvent(done[index] ?? '');
    if (!parsed.ok) throw new Error(parsed.error.details.problem);
    const before = index === 0 ? GENESIS : eventHash(done[index - 1] ?? '');
    done[index] = textOf({ ...parsed.value, prevInJob: before, prevInStore: before });
  }
  return done;
}

const otherValue = (text: string) => text.replace(/"value":\d+/, '"value":999');

describe('a whole chain', () => {
  test('has no findings, with and without anchors, and gives events, hashes and head', () => {
    const report = verifyJobChain(JOB, texts, [headOf(texts), headOf(texts.slice(0, 3))]);
    expect(report.findings).toEqual([]);
    expect(report.events.map((event) => event.seq)).toEqual([1, 2, 3, 4, 5, 6]);
    expect(report.hashes).toEqual(texts.map(eventHash));
    expect(report.head).toEqual(headOf(texts));
  });

  test('an empty chain is whole and ends at the beginning', () => {
    expect(verifyJobChain(JOB, [])).toEqual({
      events: [],
      hashes: [],
      head: { seq: 0, hash: GENESIS },
      findings: [],
    });
  });
});

describe('a changed text', () => {
  test.each([1, 2, 3, 4])('is located at %i because its successor is vouched for', (seq) => {
    expect(findingsOf(withChanged(seq, otherValue))).toEqual([{ what: 'changed', seq }]);
  });

  test('last but one: without an anchor either of the last two may be the changed one', () => {
    expect(findingsOf(withChanged(5, otherValue))).toEqual([{ what: 'brokenLink', seq: 5, nextSeq: 6 }]);
  });

  test('last but one: the anchor tells', () => {
    expect(findingsOf(withChanged(5, otherValue), [headOf(texts)])).toEqual([{ what: 'changed', seq: 5 }]);
  });

  test('last: only an anchor can see it', () => {
    expect(findingsOf(withChanged(6, otherValue))).toEqual([]);
    expect(findingsOf(withChanged(6, otherValue), [headOf(texts)])).toEqual([{ what: 'changed', seq: 6 }]);
  });

  test('a changed link is located at the event that holds it', () => {
    const spoiled = withChanged(3, (text) => text.replace(/"prevInJob":"./, '"prevInJob":"z'));
    expect(findingsOf(spoiled)).toEqual([
      { what: 'unreadable', seq: 3, problem: expect.stringContaining('prevInJob') },
    ]);
    const other = withChanged(3, (text) =>
      text.replace(/"prevInJob":"[0-9a-f]{64}/, `"prevInJob":"${'a'.repeat(64)}`),
    );
    expect(findingsOf(other)).toEqual([{ what: 'changed', seq: 3 }]);
  });

  test('a changed number is located by the place that the link proves', () => {
    const spoiled = withChanged(3, (text) => text.replace('"seq":3', '"seq":9'));
    expect(findingsOf(spoiled)).toEqual([{ what: 'changed', seq: 3 }]);
  });

  test('a changed job name is located, not taken for a foreign event', () => {
    const spoiled = withChanged(2, (text) => text.replace(JOB, OTHER_JOB));
    expect(findingsOf(spoiled)).toEqual([{ what: 'changed', seq: 2 }]);
  });

  test('two changed texts are both located when an unchanged pair lies between them', () => {
    const spoiled = withChanged(2, otherValue).map((text, index) => (index === 4 ? otherValue(text) : text));
    expect(findingsOf(spoiled, [headOf(texts)])).toEqual([
      { what: 'changed', seq: 2 },
      { what: 'changed', seq: 5 },
    ]);
  });

  test('one event between two changed ones may have been changed with them, and that is what is said', () => {
    const spoiled = withChanged(2, otherValue).map((text, index) => (index === 3 ? otherValue(text) : text));
    expect(findingsOf(spoiled, [headOf(texts)])).toEqual([
      { what: 'brokenLink', seq: 2, nextSeq: 3 },
      { what: 'changed', seq: 4 },
    ]);
  });

  test('the first event must begin the chain', () => {
    const spoiled = rechained(texts, 1).map((text, index) =>
      index === 0 ? text.replace(GENESIS, '1'.repeat(64)) : text,
    );
    const again = rechained(spoiled, 2);
    expect(findingsOf(again)).toEqual([{ what: 'brokenLink', seq: 0, nextSeq: 1 }]);
  });
});

describe('missing, moved and added events', () => {
  const without = (...seqs: readonly number[]) => texts.filter((_, index) => !seqs.includes(index + 1));

  test.each([
    ['in the middle', without(3), { fromSeq: 3, toSeq: 3 }],
    ['several', without(2, 3, 4), { fromSeq: 2, toSeq: 4 }],
    ['at the beginning', without(1), { fromSeq: 1, toSeq: 1 }],
  ])('a gap %s', (_name, list, where) => {
    expect(findingsOf(list)).toEqual([{ what: 'gap', ...where }]);
  });

  test('a cut tail takes an anchor to be seen', () => {
    expect(findingsOf(without(5, 6))).toEqual([]);
    expect(findingsOf(without(5, 6), [headOf(texts)])).toEqual([{ what: 'gap', fromSeq: 5, toSeq: 6 }]);
    expect(findingsOf([], [headOf(texts)])).toEqual([{ what: 'gap', fromSeq: 1, toSeq: 6 }]);
  });

  test('swapped events are named with the places they stand at', () => {
    const [a = '', b = '', c = '', ...rest] = texts;
    expect(findingsOf([a, c, b, ...rest])).toEqual([
      { what: 'swapped', seq: 2, position: 3 },
      { what: 'swapped', seq: 3, position: 2 },
    ]);
  });

  test('a doubled event', () => {
    const [a = '', b = '', ...rest] = texts;
    expect(findingsOf([a, b, b, ...rest]).map((finding) => finding.what)).toContain('doubled');
  });

  test('an event of another job', () => {
    const [foreign = ''] = storeOfEvents([OTHER_JOB]).map(({ text }) => text);
    const moved = textOf(envelope({ job: OTHER_JOB, seq: 7, prevInJob: 'b'.repeat(64) }));
    expect(findingsOf([...texts, moved])).toEqual([{ what: 'foreign', seq: 7, of: OTHER_JOB }]);
    expect(findingsOf([foreign])).toEqual([{ what: 'changed', seq: 1 }]);
  });

  test('what is no event at all', () => {
    expect(findingsOf(withChanged(4, () => 'torn'))).toEqual([
      { what: 'unreadable', seq: 4, problem: 'the text is not JSON' },
    ]);
  });
});

describe('a chain written anew', () => {
  const forged = rechained(withChanged(3, otherValue), 4);

  test('agrees with itself, so nothing shows without an anchor', () => {
    expect(findingsOf(forged)).toEqual([]);
  });

  test('an anchor in its middle shows it and bounds it by the last good anchor', () => {
    const anchors = [headOf(texts.slice(0, 2)), headOf(texts.slice(0, 5))];
    expect(findingsOf(forged, anchors)).toEqual([{ what: 'rewritten', fromSeq: 3, toSeq: 5 }]);
  });
});

describe('the store chain', () => {
  const mixed = storeOfEvents([JOB, OTHER_JOB, JOB, JOB, OTHER_JOB]).map(({ text }) => text);

  test('runs over all jobs', () => {
    expect(verifyStoreChain(STORE, mixed)).toMatchObject({ findings: [], head: { seq: 5 } });
  });

  test('a job taken out whole leaves gaps, although the other job is whole in itself', () => {
    const kept = mixed.filter((text) => text.includes(JOB));
    expect(verifyJobChain(JOB, kept).findings).toEqual([]);
    expect(verifyStoreChain(STORE, kept, [headOf(mixed)]).findings).toEqual([
      { what: 'gap', fromSeq: 2, toSeq: 2 },
      { what: 'gap', fromSeq: 5, toSeq: 5 },
    ]);
  });

  test('an event of another store is foreign', () => {
    const other = '01a21209-052e-7706-9d17-000000000000';
    const foreign = textOf(envelope({ store: other, storeSeq: 6, prevInStore: 'c'.repeat(64) }));
    expect(verifyStoreChain(STORE, [...mixed, foreign]).findings).toEqual([
      { what: 'foreign', seq: 6, of: other },
    ]);
  });
});

describe(`any change of one character in an anchored chain (seed ${SEED})`, () => {
  test('is found, and located at the event that was changed and nowhere else', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: LENGTH }),
        fc.nat(),
        fc.constantFrom('0', '7', 'a', 'z', ' ', '"', '}', '\u00e9'),
        (seq, where, character) => {
          const spoiled = withChanged(seq, (text) => {
            const index = where % text.length;
            return text.slice(0, index) + character + text.slice(index + 1);
          });
          if (spoiled[seq - 1] === texts[seq - 1]) return;
          const found = findingsOf(spoiled, [headOf(texts)]);
          expect(found).toHaveLength(1);
          expect(found[0]).toMatchObject({ seq, what: expect.stringMatching(/^(changed|unreadable)$/) });
        },
      ),
      { seed: SEED, numRuns: 500 },
    );
  });
});
