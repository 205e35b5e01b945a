import type { ReactNode } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, test } from 'vitest';
import { CoordinateCard } from '../../../renderer/screens/Placement/CoordinateCard.tsx';
import { Button } from '../../../renderer/ui/Button.tsx';
import { EntryMark, type Mark } from '../../../renderer/ui/EntryMark.tsx';
import { HoldButton } from '../../../renderer/ui/HoldButton.tsx';
import { Icon, type IconName } from '../../../renderer/ui/Icon.tsx';
import { ErrorNotice } from '../../../renderer/ui/Notice.tsx';
import { VerdictMark } from '../../../renderer/ui/VerdictMark.tsx';

const drawn = (node: ReactNode): string => renderToStaticMarkup(node);
/** Text that a person reads, without tags. */
const textOf = (html: string): string =>
  html
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();

describe('the mark of an entry', () => {
  const marks: readonly Exclude<Mark, 'none'>[] = ['typing', 'sent', 'recorded', 'restored', 'refused'];

  test.each(marks)('%s has a shape, a word and a name for tests', (mark) => {
    const html = drawn(<EntryMark mark={mark} />);
    expect(html).toContain('<svg');
    expect(html).toContain(`data-mark="${mark}"`);
    expect(textOf(html).length).toBeGreaterThan(3);
  });

  test('every state reads differently, without looking at its colour', () => {
    expect(new Set(marks.map((mark) => textOf(drawn(<EntryMark mark={mark} />)))).size).toBe(marks.length);
  });

  test('nothing entered has no mark', () => {
    expect(drawn(<EntryMark mark="none" />)).toBe('');
  });
});

describe('the mark of a verdict', () => {
  test('has three shapes that differ without colour, and its words', () => {
    const html = (['proven', 'notProven', 'outside'] as const).map((kind) =>
      drawn(<VerdictMark kind={kind} words="word" />).replace(
        /verdict-[a-z-]+|data-verdict="[A-Za-z]+"/g,
        '',
      ),
    );
    expect(new Set(html).size).toBe(3);
    for (const each of html) expect(textOf(each)).toBe('word');
  });
});

test('a card reads from title to verdict to deviation, the figure is left to the eyes', () => {
  const html = drawn(
    <CoordinateCard
      coordinate="ahead"
      words={{
        title: 'Ahead',
        words: '4.0 mm toward the car',
        uncertainty: 'U 3.2 mm, limit 10.0 mm',
        verdict: 'proven',
        verdictWords: 'proven',
        probability: '99.2 % conforming',
        consequence: '',
        bar: { lower: -10, upper: 10, found: -4, boxHalfWidth: 2.6, whiskerHalfWidth: 3.2 },
      }}
    />,
  );
  expect(textOf(html)).toBe('Ahead proven 4.0 mm toward the car U 3.2 mm, limit 10.0 mm 99.2 % conforming');
  expect(html.match(/<svg[^>]*aria-hidden="true"/g)).toHaveLength(2);
});

describe('buttons', () => {
  test('an icon never stands without its word', () => {
    const names: readonly IconName[] = ['home', 'strike', 'done'];
    for (const name of names) {
      expect(drawn(<Icon name={name} />)).toContain('aria-hidden="true"');
      expect(textOf(drawn(<Button icon={name}>Word</Button>))).toBe('Word');
    }
  });

  test('a held press says that it must be held', () => {
    const html = drawn(<HoldButton onHeld={() => undefined}>Sign</HoldButton>);
    expect(textOf(html)).toBe('Sign (hold for one second)');
    expect(
      drawn(
        <HoldButton disabled onHeld={() => undefined}>
          Sign
        </HoldButton>,
      ),
    ).toContain('disabled');
  });
});

test('trouble says what happened, what to do next, whether the work is safe, and where it is in the log', () => {
  const error = { code: 'journal/full', details: { path: '/data' }, traceId: 'abc123' };
  const html = drawn(<ErrorNotice error={error} />);
  expect(html).toContain('role="alert"');
  expect(textOf(html)).toMatch(/disk is full.*Free some space.*Nothing was recorded.*abc123/);
});
