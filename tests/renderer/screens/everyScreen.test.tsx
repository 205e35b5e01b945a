import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, test } from 'vitest';
import { stages } from '../../../core/job/stages/index.ts';
import { wordFaults } from '../../../core/words/index.ts';
import { FirstRunScreen } from '../../../renderer/screens/FirstRun/FirstRunScreen.tsx';
import { SetUpShop } from '../../../renderer/screens/FirstRun/SetUpShop.tsx';
import { HomeScreen } from '../../../renderer/screens/Home/HomeScreen.tsx';
import { JobScreen } from '../../../renderer/screens/Job/JobScreen.tsx';
import { ShopParts } from '../../../renderer/screens/Shop/ShopScreen.tsx';
import { createActions } from '../../../renderer/state/actions.ts';
import type { HeldJob } from '../../../renderer/state/heldJob.ts';
import { SHOP_TABS } from '../../../renderer/state/shopDrafts.ts';
import { opened, typedKey } from '../../../renderer/state/typedEntry.ts';
import { WindowProvider } from '../../../renderer/state/windowContext.tsx';
import { createWindowStore, type Status, type WindowState } from '../../../renderer/state/windowState.ts';
import { heldAfter, movedIndex, readingIndex, script, shop, stepIndex } from '../demoHeld.ts';
import { FakePorts } from '../fakePorts.ts';

const status: Status = {
  version: '0.1.0',
  build: 'development',
  store: { state: 'ready', detail: '' },
  shop,
  key: 'open',
  rootFingerprint: '3a403caa',
};

/** A screen as it stands in this state of the window. */
function drawn(screen: React.ReactNode, state: Partial<WindowState> = {}): string {
  const store = createWindowStore({ screen: 'home' });
  store.setState({ status, person: 'mira', service: 'running', ...state });
  const actions = createActions(store, new FakePorts(), { read: () => null, write: () => undefined });
  // Drawing without a window starts from the store's first state: here that is the state to be drawn.
  const still = { ...store, getInitialState: store.getState };
  return renderToStaticMarkup(
    <WindowProvider store={still} actions={actions}>
      {screen}
    </WindowProvider>,
  );
}

/** What is read on a screen, piece by piece: text, names for readers for the blind, hints in empty boxes. */
function words(html: string): readonly string[] {
  const texts = html.replace(/<style[\s\S]*?<\/style>/g, '').split(/<[^>]*>/);
  const names = [...html.matchAll(/(?:aria-label|placeholder|title)="([^"]*)"/g)].map(
    (match) => match[1] ?? '',
  );
  const entities: Readonly<Record<string, string>> = { '&#x27;': "'", '&quot;': '"', '&amp;': '&' };
  return [...texts, ...names]
    .map((text) => text.replace(/&#x27;|&quot;|&amp;/g, (entity) => entities[entity] ?? entity).trim())
    .filter((text) => text !== '');
}

/** Nothing on a screen may be a key of the catalogue, a hole in a sentence, a signed number or a banned word. */
function expectPlain(html: string): void {
  for (const text of words(html)) {
    expect(text).not.toMatch(/undefined|NaN|\[object|[{}]/);
    expect(text).not.toMatch(/^[a-z][A-Za-z]*(\.[a-zA-Z0-9]+)+$/);
    // What people and shops wrote is theirs: only our own wording is bound.
    if (!ownWords.some((own) => text.includes(own))) expect(wordFaults(text), text).toEqual([]);
  }
}

/** Texts of the demo data that hold a side without a car: names of things, typed remarks. */
const ownWords: readonly string[] = ['Slide, 550 mm'];

/** Buttons and boxes without a name cannot be found by a reader for the blind. */
function expectNamed(html: string): void {
  for (const [button = ''] of html.matchAll(/<button[\s\S]*?<\/button>/g)) {
    const inner = button.replace(/<[^>]*>/g, '').trim();
    if (!button.includes('aria-label')) expect(inner, button.slice(0, 120)).not.toBe('');
  }
  for (const [input = ''] of html.matchAll(/<input[^>]*>/g)) {
    if (!/type="(hidden|file)"|aria-hidden="true"/.test(input)) expect(input).toMatch(/aria-label|id="/);
  }
}

/** Moments of the demo job that differ in what the window must show. */
const moments: readonly (readonly [string, number])[] = [
  ['just opened', 2],
  ['sensors listed', readingIndex('floor.FL')],
  ['on the lap round the car', readingIndex('behind.L')],
  ['before the first move', movedIndex],
  ['after the move', movedIndex + 1],
  ['at the first slide', readingIndex('slide')],
  ['before sign-off', script.steps.length],
];

function withJob(held: HeldJob, state: Partial<WindowState> = {}): Partial<WindowState> {
  return { jobs: { [held.job.id]: held }, ...state };
}

describe.each(moments)('the demo job, %s', (_name, count) => {
  const held = heldAfter(count);
  const views = [...stages.map((stage) => stage.id), 'history' as const];

  test.each(views)('%s reads plainly, and everything that can be touched has a name', (view) => {
    const html = drawn(<JobScreen job={held.job.id} view={view} />, withJob(held));
    expectPlain(html);
    expectNamed(html);
    expect(html).toContain('data-testid="next-action"');
  });
});

describe('states of the window', () => {
  const held = heldAfter(readingIndex('bar.sameR'));
  const job = held.job.id;

  test('a draft of an earlier start is in its field, marked as typed and not recorded', () => {
    const entry = { ...opened(job, 'intake.model', 'Petr', 'c'), phase: 'restored' as const };
    const html = drawn(
      <JobScreen job={job} view="intake" />,
      withJob(held, { typed: { [typedKey(job, 'intake.model')]: entry } }),
    );
    expect(html).toContain('value="Petr"');
    expect(html).toContain('data-mark="restored"');
    expect(html).toContain('data-overall="typing"');
  });

  test('commands without an answer are counted, and a service that is away is said', () => {
    const sent = drawn(<JobScreen job={job} view="intake" />, withJob(held, { unanswered: 2 }));
    expect(sent).toContain('data-overall="sent"');
    const away = drawn(<JobScreen job={job} view="intake" />, withJob(held, { service: 'restarting' }));
    expect(away).toContain('data-overall="waiting"');
  });

  test('a refusal stands above the stage in three sentences', () => {
    const problem = { code: 'journal/full', details: {}, traceId: 'abc' };
    const html = drawn(<JobScreen job={job} view="bay" />, withJob(held, { problem }));
    expect(html).toContain('role="alert"');
    expectPlain(html);
  });

  test('a job that cannot be read says why and leads home', () => {
    const error = { code: 'journal/altered', details: {}, traceId: 'abc' };
    const html = drawn(<JobScreen job="gone" view="bay" />, { jobErrors: { gone: error } });
    expectPlain(html);
    expectNamed(html);
    expect(words(html)).toContain('All jobs');
  });

  test('a job with a sensor but no procedure leads to Intake instead of asking for readings', () => {
    const bare = {
      ...held,
      job: { ...held.job, sensors: held.job.sensors.map((each) => ({ ...each, procedure: null })) },
    };
    for (const view of ['datum', 'placement', 'stations'] as const) {
      const html = drawn(<JobScreen job={job} view={view} />, withJob(bare));
      expect(html).toContain('data-testid="needs-intake"');
      expect(html).not.toContain('data-testid="reading"');
      expectPlain(html);
    }
  });

  test('a signed job takes nothing more: its fields are shut', () => {
    const certificate = {
      certificate: 'c',
      number: 'QUAY-2-2026-0001',
      edition: 1,
      kind: 'calibrated' as const,
      sealed: held.job.last,
      fileDigest: 'f'.repeat(64),
      replaces: null,
      reason: '',
      recordDigest: '0'.repeat(64),
      head: '0'.repeat(64),
      signer: 'tobias',
      issuedAtUtcMs: 0,
      issuedOffsetMin: 0,
      paper: 'A4' as const,
      program: 'x',
    };
    const signed = { ...held, job: { ...held.job, certificates: [certificate] } };
    expect(drawn(<JobScreen job={job} view="intake" />, withJob(signed))).toMatch(/<fieldset[^>]*disabled/);
    const result = drawn(<JobScreen job={job} view="signoff" />, withJob(signed));
    expect(result).toContain('QUAY-2-2026-0001');
    expect(result).toContain(`/file/${'f'.repeat(64)}`);
    expectPlain(result);
  });

  test('somebody who may not sign is told who may, and has no button for it', () => {
    const whole = heldAfter(script.steps.length);
    const asMira = drawn(<JobScreen job={whole.job.id} view="signoff" />, withJob(whole));
    expect(asMira).not.toContain('data-testid="sign"');
    const asTobias = drawn(
      <JobScreen job={whole.job.id} view="signoff" />,
      withJob(whole, { person: 'tobias' }),
    );
    expect(asTobias).toContain('data-testid="sign"');
    expect(asTobias).toMatch(/Hold to sign as Tobias Lantern/);
  });

  test('a locked key asks for its passphrase before anything is signed', () => {
    const whole = heldAfter(script.steps.length);
    const html = drawn(
      <JobScreen job={whole.job.id} view="signoff" />,
      withJob(whole, { person: 'tobias', status: { ...status, key: 'locked' } }),
    );
    expect(html).toContain('data-testid="unlock"');
    expect(html).toContain('type="password"');
    expect(html).not.toContain('data-testid="sign"');
  });
});

describe('screens outside a job', () => {
  const row = {
    job: 'j',
    reference: '2-2026-0001',
    plate: 'QUAY 61',
    vin: '1DEM0CAR5TH000001',
    car: 'Tidewell Petrel',
    sensors: ['Front camera'],
    stage: 'placement',
    waitsFor: 'waits.work',
    certificate: '',
    updatedUtcMs: 0,
  };

  test('home lists a job with its stage and what it waits for', () => {
    const html = drawn(<HomeScreen />, { list: { search: '', waitsFor: [], rows: [row], total: 1 } });
    expect(words(html)).toEqual(expect.arrayContaining(['QUAY 61', 'Placement', 'work in the bay']));
    expectPlain(html);
    expectNamed(html);
  });

  test('what waits for whom stands above the list with its count, and more jobs than shown can be asked for', () => {
    const waiting = { 'waits.work': 3, 'waits.signature': 1 };
    const list = { search: '', waitsFor: ['waits.work' as const], rows: [row], total: 3, waiting };
    const shown = drawn(<HomeScreen />, { list });
    expect(words(shown)).toEqual(
      expect.arrayContaining(['all: 4', 'work in the bay: 3', 'a signature: 1', 'Show more: 1 of 3']),
    );
    expect(shown.indexOf('a signature: 1')).toBeLessThan(shown.indexOf('work in the bay: 3'));
    expectPlain(shown);
    const one = drawn(<HomeScreen />, {
      list: { ...list, waitsFor: [], total: 1, waiting: { 'waits.work': 1 } },
    });
    expect(one).not.toContain('data-testid="waiting"');
    expect(one).not.toContain('data-testid="more-jobs"');
  });

  test('a signed job shows its number; an empty list and an empty search say what to do', () => {
    const number = 'QUAY-2-2026-0001';
    const signed = { ...row, certificate: number, waitsFor: 'waits.nothing' };
    expect(
      words(drawn(<HomeScreen />, { list: { search: '', waitsFor: [], rows: [signed], total: 1 } })),
    ).toContain(number);
    for (const search of ['', 'nobody']) {
      const html = drawn(<HomeScreen />, { list: { search, waitsFor: [], rows: [], total: 0 } });
      expect(html).toContain('data-testid="no-jobs"');
      expectPlain(html);
    }
  });

  test.each(['readOnly', 'newer', 'damaged', 'unwritable', 'full'] as const)(
    'a record that is %s is said plainly at the top',
    (state) => {
      const html = drawn(<HomeScreen />, {
        status: { ...status, store: { state, detail: '/data/journal.db' } },
        list: { search: '', waitsFor: [], rows: [], total: 0 },
      });
      expect(html).toContain('role="alert"');
      expectPlain(html);
    },
  );

  test('the first start asks one question; the short form names every field', () => {
    const first = drawn(<FirstRunScreen />, { status: { ...status, shop: null } });
    expect(first).toContain('data-testid="open-demo"');
    expect(first).toContain('data-testid="set-up"');
    expectPlain(first);
    expectNamed(first);
    const form = drawn(<SetUpShop onCancel={() => undefined} />);
    expectPlain(form);
    expectNamed(form);
    expect(form).toContain('type="password"');
  });

  test('the shop is shown to all, and added to by its owner only', () => {
    const asMira = drawn(<ShopParts tab="equipment" />);
    const asGreta = drawn(<ShopParts tab="equipment" />, { person: 'greta' });
    expect(asMira).not.toContain('data-testid="add-fixtures"');
    expect(asGreta).toContain('data-testid="add-fixtures"');
    for (const tab of SHOP_TABS) {
      const shown = <ShopParts tab={tab} />;
      for (const html of [drawn(shown), drawn(shown, { person: 'greta' })]) {
        expectPlain(html);
        expectNamed(html);
      }
    }
  });

  test('an instrument whose check is over says so in shape and word', () => {
    const instruments = shop.instruments.map((each, n) => ({
      ...each,
      dueOn: n === 0 ? '2001-01-01' : '9999-01-01',
    }));
    const html = drawn(<ShopParts tab="instruments" />, {
      status: { ...status, shop: { ...shop, instruments } },
    });
    expect(words(html)).toContain('overdue since 2001-01-01');
    expect(html.match(/data-due="over"/g)).toHaveLength(1);
    expect(html.match(/data-due="holds"/g)).toHaveLength(instruments.length - 1);
  });
});

test('a capture that failed stands with its cause and what was changed', () => {
  const held = heldAfter(stepIndex((step) => step.do === 'capture') + 1);
  const [first] = held.job.captures;
  if (first === undefined) throw new Error('the demo job captures');
  const failed = { ...first, result: 'failed' as const, cause: 'glare', change: 'blind closed' };
  const job = { ...held.job, captures: [failed] };
  const html = drawn(<JobScreen job={job.id} view="stations" />, withJob({ ...held, job }));
  expect(words(html)).toEqual(expect.arrayContaining(['Cause: glare', 'Changed: blind closed']));
});
