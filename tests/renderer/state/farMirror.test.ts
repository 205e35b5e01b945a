import { afterEach, expect, test } from 'vitest';
import { type FarFacts, farReceiver, farSender } from '../../../renderer/state/farMirror.ts';

const facts = (line: string): FarFacts => ({ line, rows: [], empty: 'nothing yet', note: '' });

const ends: (() => void)[] = [];
afterEach(() => {
  for (const end of ends.splice(0)) end();
});

let names = 0;
function pair() {
  names += 1;
  const name = `far-${names}`;
  return { name, open: () => new BroadcastChannel(name) };
}

function receiver(open: () => BroadcastChannel) {
  const heard: FarFacts[] = [];
  const waiting: (() => void)[] = [];
  const stop = farReceiver(open(), (each) => {
    heard.push(each);
    waiting.shift()?.();
  });
  ends.push(stop);
  return { heard, next: () => new Promise<void>((resolve) => waiting.push(resolve)), stop };
}

function sender(open: () => BroadcastChannel) {
  const opened = farSender(open());
  ends.push(opened.close);
  return opened;
}

test('each new state is sent, the same one not twice', async () => {
  const { open } = pair();
  const working = sender(open);
  const listener = open();
  ends.push(() => listener.close());
  const lines: string[] = [];
  const third = new Promise<void>((resolve) => {
    listener.onmessage = ({ data }: MessageEvent<{ facts: FarFacts }>) => {
      lines.push(data.facts.line);
      if (data.facts.line === 'three') resolve();
    };
  });
  for (const line of ['one', 'one', 'two', 'three']) working.send(facts(line));
  await third;
  expect(lines).toEqual(['one', 'two', 'three']);
});

test('a window that opens later is given the last state', async () => {
  const { open } = pair();
  const working = sender(open);
  working.send(facts('before'));
  const far = receiver(open);
  await far.next();
  expect(far.heard).toEqual([facts('before')]);
});

test('a screen without a state yet answers nothing, and says it when it has one', async () => {
  const { open } = pair();
  const working = sender(open);
  const far = receiver(open);
  const first = far.next();
  working.send(facts('now'));
  await first;
  expect(far.heard.map((each) => each.line)).toEqual(['now']);
});

test.each([[null], ['facts'], [{}], [{ kind: 'other' }], [{ kind: 'facts' }]])(
  'what is no message of ours is passed over: %j',
  async (strange) => {
    const { name, open } = pair();
    const working = sender(open);
    const far = receiver(open);
    const third = new BroadcastChannel(name);
    ends.push(() => third.close());
    const first = far.next();
    third.postMessage(strange);
    working.send(facts('ours'));
    await first;
    expect(far.heard.map((each) => each.line)).toEqual(['ours']);
  },
);
