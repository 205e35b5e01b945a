/** What a person can make the window do. The only place that changes the store or speaks to the service. */
import type { Input, Output, WaitsFor } from '../../core/contract/index.ts';
import type { CertificateKind } from '../../core/job/events.ts';
import type { Room } from '../../core/job/room.ts';
import type { Shop } from '../../core/job/shop.ts';
import type { Procedure } from '../../core/procedure/schema.ts';
import { err, ok, type Result } from '../../core/result.ts';
import type { LengthUnit } from '../../core/units.ts';
import { type Language, speak } from '../../core/words/index.ts';
import { showLengthsIn } from '../text/lengthText.ts';
import { withEvents } from './heldJob.ts';
import type { CallError, Ports } from './ports.ts';
import { createRecorder, type EntryToSend, hasNoAnswer, type RecordAnswer } from './recorder.ts';
import { type Route, routeText } from './route.ts';
import {
  type Cover,
  KEYPAD_KEPT,
  keypadOf,
  LANGUAGE_KEPT,
  LENGTH_UNIT_KEPT,
  languageOf,
  lengthUnitOf,
  THEME_KEPT,
  type ThemeChoice,
  themeOf,
} from './screenChoice.ts';
import { createStreaming, type StreamingActions } from './streaming.ts';
import {
  afterRecorded,
  afterRefused,
  DRAFT_AFTER_MS,
  opened,
  restored,
  sent,
  type TypedEntry,
  typed,
  typedKey,
} from './typedEntry.ts';
import type { Status, WindowState, WindowStore } from './windowState.ts';

export interface Actions extends StreamingActions {
  readonly start: () => Promise<void>;
  readonly go: (route: Route) => void;
  /** Gives the focus to a field or reading of the stage in sight. */
  readonly lookAt: (key: string | null) => void;
  readonly choosePerson: (person: string) => void;
  readonly openDemo: () => Promise<void>;
  readonly setUpShop: (
    form: Omit<Input<'shop.setUp'>, 'commandId'>,
  ) => Promise<Result<Output<'shop.setUp'>, CallError>>;
  readonly takeStatus: (status: Status) => void;
  /** Records the shop as it stands from now on; answers why not, or null. */
  readonly recordShop: (shop: Shop) => Promise<CallError | null>;
  /** Records what is now known of a bay; answers why not, or null. */
  readonly recordBay: (bay: string, room: Room) => Promise<CallError | null>;
  /** Records a procedure just entered or reviewed; answers why not, or null. */
  readonly recordProcedure: (procedure: Procedure) => Promise<CallError | null>;
  readonly openKey: (passphrase: string) => Promise<Result<Status, CallError>>;
  /** Lists the jobs that fit, from the newest on; without `waitsFor` what was chosen before stays. */
  readonly search: (text: string, waitsFor?: readonly WaitsFor[]) => Promise<void>;
  /** Adds the next page to the list. */
  readonly listMore: () => Promise<void>;
  readonly createJob: (bay: string, entries: readonly EntryToSend[]) => Promise<CallError | null>;
  /** Opens a job in the simulated bay, with everything before the measuring done; it is at Datum then. */
  readonly rehearse: () => Promise<void>;
  readonly readJob: (job: string) => Promise<void>;
  /** Every key typed: state at once, draft after 300 ms. */
  readonly type: (job: string, key: string, text: string) => void;
  /** The person left the field without sending: the draft is saved now. */
  readonly leave: (job: string, key: string) => void;
  /** Nothing typed after all. */
  readonly drop: (job: string, key: string) => void;
  /** Sends what stands in a field as the facts given. */
  readonly send: (job: string, key: string, entries: readonly EntryToSend[]) => Promise<RecordAnswer>;
  /** Records facts that no one typed into a field: a choice, a move, a strike. */
  readonly record: (
    job: string,
    entries: readonly EntryToSend[],
    choice?: { readonly key: string; readonly value: unknown },
  ) => Promise<RecordAnswer>;
  readonly issue: (
    job: string,
    kind: CertificateKind,
    reason: string,
    language?: Language,
  ) => Promise<Result<Output<'certificate.issue'>, CallError>>;
  /** Draws the certificate that would be issued now; answers the digest of its bytes. */
  readonly draft: (
    job: string,
    kind: CertificateKind,
    reason: string,
    language: Language,
  ) => Promise<Result<Output<'certificate.draft'>, CallError>>;
  readonly readCertificates: (job: string) => Promise<void>;
  readonly check: (file: string) => Promise<Result<Output<'certificate.check'>, CallError>>;
  readonly dismissProblem: () => void;
  readonly chooseTheme: (theme: ThemeChoice) => void;
  readonly chooseLanguage: (language: Language) => void;
  readonly chooseLengthUnit: (unit: LengthUnit) => void;
  readonly coverWith: (cover: Cover) => void;
  readonly putKeypad: (out: boolean) => void;
  /** Proof readings at once for this putting-up of the fixture. */
  readonly skipQuick: (key: string) => void;
}

const asked = (waitsFor: readonly WaitsFor[]) => (waitsFor.length === 0 ? {} : { waitsFor: [...waitsFor] });

/** Facts one command may carry. */
const MOST_ENTRIES = 20;

const PERSON_KEPT = 'datumline.person';

/** What outlives the window on this PC only: who was chosen last, how its screen is set. */
export interface Kept {
  readonly read: (key: string) => string | null;
  readonly write: (key: string, value: string) => void;
}

export function createActions(store: WindowStore, ports: Ports, kept: Kept): Actions {
  const { getState, setState } = store;
  const draftTimers = new Map<string, () => void>();
  const language = languageOf(kept.read(LANGUAGE_KEPT));
  const lengthUnit = lengthUnitOf(kept.read(LENGTH_UNIT_KEPT));
  // Before anything is drawn, so that not a word is said in another language first.
  speak(language);
  showLengthsIn(lengthUnit);
  setState({
    language,
    lengthUnit,
    theme: themeOf(kept.read(THEME_KEPT)),
    keypad: keypadOf(kept.read(KEYPAD_KEPT)),
  });

  const putTyped = (key: string, entry: TypedEntry | undefined): void =>
    setState((state) => {
      const rest = Object.fromEntries(Object.entries(state.typed).filter(([each]) => each !== key));
      return { typed: entry === undefined ? rest : { ...rest, [key]: entry } };
    });

  const streaming = createStreaming(store, ports);

  const acting = (): string => getState().person ?? '';

  const takeStatus = (status: Status): void => {
    const people = status.shop?.people ?? [];
    const known = (id: string | null): boolean => people.some((each) => each.id === id);
    const last = getState().person ?? kept.read(PERSON_KEPT);
    setState({ status, startError: null, person: known(last) ? last : (people[0]?.id ?? null) });
  };

  const readJob = async (job: string): Promise<void> => {
    const answer = await ports.call('job.read', { job, afterSeq: 0 });
    if (!answer.ok) {
      if (!hasNoAnswer(answer.error)) {
        setState((state) => ({ jobErrors: { ...state.jobErrors, [job]: answer.error } }));
      }
      return;
    }
    const held = withEvents(undefined, answer.value.events, answer.value.personal);
    if (held === undefined) return;
    setState((state) => {
      const drafts = answer.value.drafts.filter((draft) => draft.text !== '');
      const fresh = drafts
        .filter((draft) => state.typed[typedKey(job, draft.field)] === undefined)
        .map((draft) => [typedKey(job, draft.field), restored(job, draft.field, draft.text, ports.newId())]);
      return {
        jobs: { ...state.jobs, [job]: held },
        jobErrors: Object.fromEntries(Object.entries(state.jobErrors).filter(([each]) => each !== job)),
        typed: { ...state.typed, ...Object.fromEntries(fresh) },
      };
    });
  };

  const takeRecorded = (job: string, output: Output<'job.record'>): void => {
    const held = withEvents(getState().jobs[job], output.events, output.personal);
    if (held === undefined) void readJob(job);
    else setState((state) => ({ jobs: { ...state.jobs, [job]: held } }));
  };

  const recorder = createRecorder(ports, {
    lastSeq: (job) => getState().jobs[job]?.job.last.seq ?? 0,
    onRecorded: takeRecorded,
    onWaiting: (unanswered) => setState({ unanswered }),
  });

  const saveDraft = async (key: string): Promise<void> => {
    draftTimers.get(key)?.();
    draftTimers.delete(key);
    const entry = getState().typed[key];
    if (entry === undefined || entry.phase === 'sent' || entry.savedText === entry.text) return;
    const answer = await ports.call('draft.save', { job: entry.job, field: entry.key, text: entry.text });
    const now = getState().typed[key];
    if (answer.ok && now !== undefined && now.savedText !== entry.text) {
      putTyped(key, { ...now, savedText: entry.text });
    } else if (!answer.ok && hasNoAnswer(answer.error) && now !== undefined) {
      saveDraftSoon(key);
    }
  };

  /** The first key after a save starts the wait: somebody who types without a pause is saved every 300 ms too. */
  const saveDraftSoon = (key: string): void => {
    if (draftTimers.has(key)) return;
    draftTimers.set(
      key,
      ports.later(DRAFT_AFTER_MS, () => void saveDraft(key)),
    );
  };

  const stopDraft = (key: string): void => {
    draftTimers.get(key)?.();
    draftTimers.delete(key);
  };

  const type = (job: string, field: string, text: string): void => {
    const key = typedKey(job, field);
    const entry = getState().typed[key];
    putTyped(
      key,
      entry === undefined ? opened(job, field, text, ports.newId()) : typed(entry, text, ports.newId()),
    );
    saveDraftSoon(key);
  };

  const drop = (job: string, field: string): void => {
    const key = typedKey(job, field);
    const entry = getState().typed[key];
    stopDraft(key);
    putTyped(key, undefined);
    if (entry?.savedText != null && entry.savedText !== '') {
      void ports.call('draft.save', { job, field, text: '' });
    }
  };

  const send = async (job: string, field: string, entries: readonly EntryToSend[]): Promise<RecordAnswer> => {
    const key = typedKey(job, field);
    const entry = getState().typed[key] ?? opened(job, field, '', ports.newId());
    stopDraft(key);
    putTyped(key, sent(entry));
    const { commandId } = entry;
    const answer = await recorder.submit({ job, commandId, person: acting(), draft: field, entries });
    const now = getState().typed[key];
    if (now === undefined) return answer;
    if (answer.ok) putTyped(key, afterRecorded(now, commandId));
    else {
      putTyped(key, afterRefused(now, commandId, answer.error, ports.newId()));
      await readJob(job);
    }
    return answer;
  };

  const putPending = (key: string, value: WindowState['pending'][string] | undefined): void =>
    setState((state) => {
      const rest = Object.fromEntries(Object.entries(state.pending).filter(([each]) => each !== key));
      return { pending: value === undefined ? rest : { ...rest, [key]: value } };
    });

  const record: Actions['record'] = async (job, entries, choice) => {
    const commandId = ports.newId();
    const key = choice === undefined ? undefined : typedKey(job, choice.key);
    if (key !== undefined) putPending(key, { value: choice?.value, commandId });
    const answer = await recorder.submit({ job, commandId, person: acting(), draft: null, entries });
    if (key !== undefined && getState().pending[key]?.commandId === commandId) putPending(key, undefined);
    if (!answer.ok) {
      setState({ problem: answer.error });
      await readJob(job);
    }
    return answer;
  };

  /** Repeats a command that has no answer, always with the same id. */
  const insist = async <T>(call: () => Promise<Result<T, CallError>>): Promise<Result<T, CallError>> => {
    for (;;) {
      const answer = await call();
      if (answer.ok || !hasNoAnswer(answer.error)) return answer;
      await new Promise<void>((resolve) => ports.later(DRAFT_AFTER_MS, resolve));
    }
  };

  const readStatus = async (): Promise<void> => {
    const answer = await insist(() => ports.call('app.status', {}));
    if (answer.ok) takeStatus(answer.value);
    else setState({ startError: answer.error });
  };

  const search: Actions['search'] = async (text, chosen) => {
    const waitsFor = chosen ?? getState().list?.waitsFor ?? [];
    const answer = await ports.call('job.list', { search: text, ...asked(waitsFor) });
    if (answer.ok) setState({ list: { search: text, waitsFor, ...answer.value } });
    else if (!hasNoAnswer(answer.error)) setState({ problem: answer.error });
  };

  const listMore: Actions['listMore'] = async () => {
    const { list } = getState();
    if (list === null) return;
    const input = { search: list.search, ...asked(list.waitsFor), offset: list.rows.length };
    const answer = await ports.call('job.list', input);
    const now = getState().list;
    // Another search may have been answered meanwhile: its list has no place for these rows.
    if (answer.ok && now === list) {
      const known = new Set(list.rows.map((row) => row.job));
      const rows = [...list.rows, ...answer.value.rows.filter((row) => !known.has(row.job))];
      setState({ list: { ...list, ...answer.value, rows } });
    } else if (!answer.ok && !hasNoAnswer(answer.error)) setState({ problem: answer.error });
  };

  const enterRoute = (route: Route): void => {
    if (route.screen === 'home') void search(getState().list?.search ?? '');
    if (route.screen === 'job') {
      if (getState().jobs[route.job] === undefined) void readJob(route.job);
    }
  };

  const serviceChanged = (service: WindowState['service']): void => {
    const before = getState().service;
    setState({ service });
    if (service !== 'running' || before === 'running') return;
    recorder.wake();
    streaming.again();
    for (const key of Object.keys(getState().typed)) void saveDraft(key);
    if (getState().status !== null) void readStatus();
  };

  const jobChanged = (job: string, seq: number): void => {
    const held = getState().jobs[job];
    if (held !== undefined && held.job.last.seq < seq && getState().unanswered === 0) void readJob(job);
    if (getState().route.screen === 'home') void search(getState().list?.search ?? '');
  };

  return {
    ...streaming.actions,
    start: async () => {
      streaming.start();
      ports.onNotice('service.state', (notice) => serviceChanged(notice.state));
      ports.onNotice('job.changed', (notice) => jobChanged(notice.job, notice.seq));
      await readStatus();
      if (getState().status !== null) setState({ service: 'running' });
      enterRoute(getState().route);
    },
    go: (route) => {
      setState({ route, problem: null, focus: null, cover: 'none' });
      globalThis.history?.replaceState(null, '', routeText(route));
      enterRoute(route);
    },
    lookAt: (focus) => setState({ focus }),
    choosePerson: (person) => {
      kept.write(PERSON_KEPT, person);
      setState({ person });
    },
    openDemo: async () => {
      const commandId = ports.newId();
      const answer = await insist(() => ports.call('shop.openDemo', { commandId }));
      if (!answer.ok) return setState({ problem: answer.error });
      takeStatus(answer.value);
      await search('');
    },
    setUpShop: async (form) => {
      const commandId = ports.newId();
      return insist(() => ports.call('shop.setUp', { ...form, commandId }));
    },
    takeStatus,
    recordShop: async (shop) => {
      const commandId = ports.newId();
      const input = { person: acting(), commandId, shop };
      const answer = await insist(() => ports.call('shop.record', input));
      if (!answer.ok) return answer.error;
      takeStatus(answer.value);
      return null;
    },
    recordBay: async (bay, room) => {
      const commandId = ports.newId();
      const answer = await insist(() =>
        ports.call('shop.recordBay', { person: acting(), commandId, bay, room }),
      );
      if (!answer.ok) return answer.error;
      takeStatus(answer.value);
      return null;
    },
    recordProcedure: async (procedure) => {
      const commandId = ports.newId();
      const answer = await insist(() =>
        ports.call('shop.recordProcedure', { person: acting(), commandId, procedure }),
      );
      if (!answer.ok) return answer.error;
      takeStatus(answer.value);
      return null;
    },
    openKey: async (passphrase) => {
      const answer = await ports.call('key.open', { passphrase });
      if (answer.ok) takeStatus(answer.value);
      return answer;
    },
    search,
    listMore,
    createJob: async (bay, entries) => {
      const commandId = ports.newId();
      const input = { person: acting(), commandId, bay, entries: entries.map((entry) => ({ ...entry })) };
      const answer = await insist(() => ports.call('job.create', input));
      if (!answer.ok) return answer.error;
      const route: Route = { screen: 'job', job: answer.value.job, view: 'intake' };
      setState({ route, problem: null });
      globalThis.history?.replaceState(null, '', routeText(route));
      await readJob(answer.value.job);
      return null;
    },
    rehearse: async () => {
      const { floorFacts, rehearsalFacts } = await import('../rehearsal/rehearsalFacts.ts');
      const bay = getState().status?.shop?.bays[0]?.code ?? '';
      const input = { person: acting(), commandId: ports.newId(), bay, entries: [], rehearsal: true };
      const created = await insist(() => ports.call('job.create', input));
      if (!created.ok) return setState({ problem: created.error });
      const { job } = created.value;
      await readJob(job);
      for (const part of rehearsalFacts(MOST_ENTRIES)) {
        const answer = await record(job, part);
        if (!answer.ok) return undefined;
      }
      const held = getState().jobs[job];
      if (held !== undefined) await record(job, floorFacts(held.job));
      const route: Route = { screen: 'job', job, view: 'datum' };
      setState({ route, problem: null });
      globalThis.history?.replaceState(null, '', routeText(route));
      return undefined;
    },
    readJob,
    type,
    leave: (job, field) => void saveDraft(typedKey(job, field)),
    drop,
    send,
    record,
    issue: async (job, kind, reason, language) => {
      const commandId = ports.newId();
      const expectedSeq = getState().jobs[job]?.job.last.seq ?? 0;
      const chosen = language === undefined ? {} : { language };
      const input = { person: acting(), job, commandId, expectedSeq, kind, reason, ...chosen };
      const answer = await insist(() => ports.call('certificate.issue', input));
      await readJob(job);
      return answer.ok ? ok(answer.value) : err(answer.error);
    },
    draft: (job, kind, reason, language) =>
      ports.call('certificate.draft', { person: acting(), job, kind, reason, language }),
    readCertificates: async (job) => {
      const answer = await ports.call('certificate.list', { job });
      if (answer.ok) {
        setState((state) => ({ certificates: { ...state.certificates, [job]: answer.value.rows } }));
      }
    },
    check: (file) => ports.call('certificate.check', { file }),
    dismissProblem: () => setState({ problem: null }),
    chooseTheme: (theme) => {
      kept.write(THEME_KEPT, theme);
      setState({ theme });
    },
    chooseLanguage: (language) => {
      kept.write(LANGUAGE_KEPT, language);
      speak(language);
      setState({ language });
    },
    chooseLengthUnit: (lengthUnit) => {
      kept.write(LENGTH_UNIT_KEPT, lengthUnit);
      showLengthsIn(lengthUnit);
      setState({ lengthUnit });
    },
    coverWith: (cover) => setState({ cover }),
    skipQuick: (key) => setState(({ quickSkipped }) => ({ quickSkipped: [...quickSkipped, key] })),
    putKeypad: (keypad) => {
      kept.write(KEYPAD_KEPT, keypad ? 'out' : 'in');
      setState({ keypad });
    },
  };
}
