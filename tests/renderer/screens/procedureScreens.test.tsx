import { renderToStaticMarkup } from 'react-dom/server';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { withProcedure } from '../../../core/job/shopProcedures.ts';
import { unreviewed } from '../../../core/procedure/index.ts';
import { speak, wordFaults } from '../../../core/words/index.ts';
import { comparable } from '../../../renderer/screens/Procedure/CompareScreen.tsx';
import { ProcedureScreen } from '../../../renderer/screens/Procedure/ProcedureScreen.tsx';
import { Procedures } from '../../../renderer/screens/Shop/Procedures.tsx';
import { createActions } from '../../../renderer/state/actions.ts';
import { nextEdition } from '../../../renderer/state/useProcedureDraft.ts';
import { WindowProvider } from '../../../renderer/state/windowContext.tsx';
import { createWindowStore } from '../../../renderer/state/windowState.ts';
import { invented } from '../../core/procedure/invented.ts';
import { shop } from '../demoHeld.ts';
import { FakePorts } from '../fakePorts.ts';

beforeEach(() => {
  const localStorage = { getItem: () => null, setItem: () => undefined, removeItem: () => undefined };
  vi.stubGlobal('window', { localStorage });
});
afterEach(() => {
  vi.unstubAllGlobals();
  speak('en');
});

const entered = {
  ...unreviewed(invented),
  source: { ...unreviewed(invented).source, enteredBy: 'Mira Sandbank' },
};
const later = { ...invented, edition: 2, title: 'Invented camera, later' };
const held = withProcedure(withProcedure(shop, invented), later);

function drawn(screen: React.ReactNode, shown = withProcedure(shop, entered), person = 'mira'): string {
  const store = createWindowStore({ screen: 'shop' });
  store.setState({
    status: {
      version: '0.1.0',
      build: 'development',
      store: { state: 'ready', detail: '' },
      shop: shown,
      key: 'open',
      rootFingerprint: '3a403caa',
    },
    person,
    service: 'running',
  });
  const actions = createActions(store, new FakePorts(), { read: () => null, write: () => undefined });
  const still = { ...store, getInitialState: store.getState };
  return renderToStaticMarkup(
    <WindowProvider store={still} actions={actions}>
      {screen}
    </WindowProvider>,
  );
}

/** Our own words on a screen: no key, no hole, no signed number, no bare side. */
function expectPlain(html: string): void {
  const names = [...html.matchAll(/(?:aria-label|placeholder|title)="([^"]*)"/g)].map(
    (match) => match[1] ?? '',
  );
  for (const piece of [...html.split(/<[^>]*>/), ...names]) {
    const text = piece
      .replace(/&#x27;/g, "'")
      .replace(/&quot;/g, '"')
      .trim();
    expect(text).not.toMatch(/undefined|NaN|\[object|[{}]/);
    expect(text).not.toMatch(/^[a-z][A-Za-z]*(\.[a-zA-Z0-9]+)+$/);
    if (!text.includes('Slide, 550 mm')) expect(wordFaults(text), text).toEqual([]);
  }
}

const ACTS = [
  ['quick', ''],
  ['new', ''],
  ['foreign', ''],
  ['edit', 'petrel-front-camera'],
  ['edit', 'invented'],
  ['review', 'invented'],
  ['review', 'petrel-front-camera'],
  ['compare', 'invented'],
  ['edit', 'gone'],
] as const;

describe.each(['en', 'de'] as const)('in the language %s', (language) => {
  // Each form is drawn in one language: what differs is the catalogue, which has tests of its own.
  test.each(ACTS.filter(([act]) => language === 'en' || act !== 'edit'))(
    '%s %s reads plainly, and every button has a name',
    (act, id) => {
      speak(language);
      const html = drawn(<ProcedureScreen act={act} id={id} />);
      if (language === 'en') expectPlain(html);
      expect(html).not.toMatch(/undefined|NaN|>[a-z]+\.[a-zA-Z.]+</);
      for (const [button = ''] of html.matchAll(/<button[\s\S]*?<\/button>/g)) {
        const inner = button.replace(/<[^>]*>/g, '').trim();
        if (!button.includes('aria-label')) expect(inner, button.slice(0, 160)).not.toBe('');
      }
    },
  );
});

describe('the form', () => {
  test('a quick sheet asks for every coordinate with its own datum and tolerance, and nothing of the long form', () => {
    const html = drawn(<ProcedureScreen act="quick" id="" />);
    for (const coordinate of ['ahead', 'left', 'up', 'yaw', 'pitch', 'roll']) {
      expect(html).toContain(`data-field="stations.station1.${coordinate}"`);
      expect(html).toContain(`data-testid="tolerance-stations.station1.${coordinate}"`);
    }
    expect(html).not.toContain('data-part="steps"');
    expect(html).not.toContain('data-fault=');
    expect(html).toContain('Becomes edition 1, not reviewed: rehearse only.');
  });

  test('the editor of a reviewed edition says which edition a change becomes', () => {
    const html = drawn(<ProcedureScreen act="edit" id="petrel-front-camera" />);
    expect(html).toContain('Becomes edition 2');
    expect(html).toContain('Edition 1 is reviewed and stays');
    expect(html).toContain('data-part="steps"');
    expect(nextEdition(undefined)).toBe(1);
    expect(nextEdition(entered)).toBe(1);
    expect(nextEdition(invented)).toBe(2);
  });

  test('an expression tells what it gives on an ordinary car', () => {
    const html = drawn(<ProcedureScreen act="edit" id="invented" />);
    expect(html).toMatch(/data-result="stations\.centre\.ahead">Gives 2400\.0 mm ahead of it/);
  });
});

describe('the review', () => {
  test('is refused to who entered it, and offered to another', () => {
    expect(drawn(<ProcedureScreen act="review" id="invented" />)).toContain('data-testid="against-review"');
    const other = drawn(<ProcedureScreen act="review" id="invented" />, undefined, 'greta');
    expect(other).toContain('data-testid="value-ticks"');
    expect(other).not.toContain('data-testid="against-review"');
  });

  test('of a reviewed edition is over', () => {
    const html = drawn(<ProcedureScreen act="review" id="petrel-front-camera" />);
    expect(html).toContain('This edition is reviewed');
    expect(html).not.toContain('data-testid="review-way"');
  });
});

describe('two editions', () => {
  test('of one procedure stand first, the later one first, and what differs is shown', () => {
    expect(
      comparable(held, 'invented')
        .slice(0, 2)
        .map((each) => each.value),
    ).toEqual(['invented@2', 'invented@1']);
    expect(comparable(held, 'invented')).toHaveLength(held.procedures.length + 1);
  });
});

describe('the list', () => {
  test('shows edition, source day and review, and offers a review where none is', () => {
    const html = drawn(<Procedures shop={withProcedure(shop, entered)} mayAdd />);
    expect(html).toContain('read on 2026-01-12');
    expect(html).toContain('data-testid="review-invented"');
    expect(html).not.toContain('data-testid="review-petrel-front-camera"');
    expect(html).toContain('data-review="unreviewed"');
    expectPlain(html);
  });
});
