import { describe, expect, test } from 'vitest';
import type { Question, Reply } from '../../../renderer/ahead/reckon.ts';
import { createReckoner } from '../../../renderer/ahead/reckoner.ts';

/** Questions by their kind and key only: what is in them is none of the reckoner's business. */
const question = (ask: Question['ask'], key: string): Question => ({ ask, key }) as unknown as Question;

function bench() {
  const posted: string[] = [];
  const desks: { closed: boolean }[] = [];
  let ears: { onReply: (reply: Reply) => void; onFault: () => void } | undefined;
  const reckoner = createReckoner((given) => {
    ears = given;
    const desk = { closed: false };
    desks.push(desk);
    return {
      post: ({ ask, key }) => posted.push(`${ask} ${key}`),
      close: () => {
        desk.closed = true;
      },
    };
  });
  return {
    reckoner,
    posted,
    desks,
    reply: (ask: Question['ask'], key: string) => ears?.onReply({ ask, key, answer: null }),
    fault: () => ears?.onFault(),
  };
}

describe('asking beside the window', () => {
  test('opens nothing until something is asked', () => {
    const { reckoner, desks } = bench();
    expect(desks).toHaveLength(0);
    reckoner.ask(question('plan', 'a'));
    expect(desks).toHaveLength(1);
  });

  test('one at a time; of those that wait only the newest of a kind is asked', () => {
    const { reckoner, posted, reply } = bench();
    reckoner.ask(question('plan', 'a'));
    reckoner.ask(question('plan', 'b'));
    reckoner.ask(question('plan', 'c'));
    expect(posted).toEqual(['plan a']);
    reply('plan', 'a');
    expect(posted).toEqual(['plan a', 'plan c']);
    reply('plan', 'c');
    expect(posted).toHaveLength(2);
    expect(reckoner.answer('plan', 'b')).toBeUndefined();
  });

  test('what a person waits for comes before plans', () => {
    const { reckoner, posted, reply } = bench();
    reckoner.ask(question('plan', 'a'));
    reckoner.ask(question('enough', 'a'));
    reckoner.ask(question('quick', 'q'));
    reply('plan', 'a');
    reply('quick', 'q');
    expect(posted).toEqual(['plan a', 'quick q', 'enough a']);
  });

  test('nothing is asked twice: neither under way nor answered', () => {
    const { reckoner, posted, reply } = bench();
    reckoner.ask(question('plan', 'a'));
    reckoner.ask(question('plan', 'a'));
    reply('plan', 'a');
    reckoner.ask(question('plan', 'a'));
    expect(posted).toEqual(['plan a']);
    expect(reckoner.answer('plan', 'a')).toBeNull();
    // The same key under another kind is another question.
    expect(reckoner.answer('enough', 'a')).toBeUndefined();
  });

  test('every answer is told, until nobody listens', () => {
    const { reckoner, reply } = bench();
    let told = 0;
    const leave = reckoner.subscribe(() => {
      told += 1;
    });
    reckoner.ask(question('plan', 'a'));
    reply('plan', 'a');
    leave();
    reckoner.ask(question('plan', 'b'));
    reply('plan', 'b');
    expect(told).toBe(1);
  });

  test('what breaks has no answer, and the next question finds a fresh desk', () => {
    const { reckoner, posted, desks, fault } = bench();
    reckoner.ask(question('quick', 'bad'));
    reckoner.ask(question('plan', 'a'));
    fault();
    expect(reckoner.answer('quick', 'bad')).toBeNull();
    expect(desks).toEqual([{ closed: true }, { closed: false }]);
    expect(posted).toEqual(['quick bad', 'plan a']);
  });

  test('only the last answers are kept', () => {
    const { reckoner, reply } = bench();
    for (let i = 0; i < 13; i++) {
      reckoner.ask(question('plan', `${i}`));
      reply('plan', `${i}`);
    }
    expect(reckoner.answer('plan', '0')).toBeUndefined();
    expect(reckoner.answer('plan', '12')).toBeNull();
  });
});
