/**
 * Asks what is reckoned beside the window. One question at a time; of those that wait only the newest of each kind is kept,
 * for its forerunners are about a state that is gone. Answers are remembered, so that the same is never reckoned twice.
 */
import type { Answers, Ask, Question, Reply } from './reckon.ts';

/** Where questions go; `onReply` and `onFault` were given when it was opened. */
export interface Desk {
  readonly post: (question: Question) => void;
  readonly close: () => void;
}

export type OpenDesk = (ears: {
  readonly onReply: (reply: Reply) => void;
  readonly onFault: () => void;
}) => Desk;

export interface Reckoner {
  /** Asks unless it is answered, under way or waiting already. */
  readonly ask: (question: Question) => void;
  /** Undefined until it is answered; null where it has no answer. */
  readonly answer: <A extends Ask>(ask: A, key: string) => Answers[A] | null | undefined;
  readonly subscribe: (listener: () => void) => () => void;
}

/** Answers kept of each kind, the newest last. */
const MOST_KEPT = 12;
/** What a person waits for comes first. */
const ORDER: readonly Ask[] = ['quick', 'plan', 'enough'];

type Kept = { readonly [A in Ask]: Map<string, Answers[A] | null> };

export function createReckoner(open: OpenDesk): Reckoner {
  const kept: Kept = { quick: new Map(), plan: new Map(), enough: new Map() };
  const waiting = new Map<Ask, Question>();
  const listeners = new Set<() => void>();
  let underWay: Question | undefined;
  let desk: Desk | undefined;

  function keep<A extends Ask>(ask: A, key: string, answer: Answers[A] | null): void {
    const answers = kept[ask];
    answers.set(key, answer);
    const [oldest] = answers.keys();
    if (answers.size > MOST_KEPT && oldest !== undefined) answers.delete(oldest);
  }

  function goOn(): void {
    if (underWay !== undefined) return;
    const next = ORDER.map((ask) => waiting.get(ask)).find((each) => each !== undefined);
    if (next === undefined) return;
    waiting.delete(next.ask);
    underWay = next;
    desk ??= open({ onReply, onFault });
    desk.post(next);
  }

  function onReply({ ask, key, answer }: Reply): void {
    underWay = undefined;
    keep(ask, key, answer);
    goOn();
    for (const listener of listeners) listener();
  }

  /** What broke is not asked again; the next question finds a fresh desk. */
  function onFault(): void {
    desk?.close();
    desk = undefined;
    const broken = underWay;
    underWay = undefined;
    if (broken !== undefined) onReply({ ask: broken.ask, key: broken.key, answer: null });
  }

  return {
    ask: (question) => {
      const { ask, key } = question;
      if (kept[ask].has(key) || (underWay?.ask === ask && underWay.key === key)) return;
      waiting.set(ask, question);
      goOn();
    },
    answer: (ask, key) => kept[ask].get(key),
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
