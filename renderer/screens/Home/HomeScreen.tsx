/** Home: every job as one line, newest first; one search, one new job, who works here. */
import { type ReactNode, useCallback, useEffect, useState } from 'react';
import type { WaitsFor } from '../../../core/contract/index.ts';
import { vinFromScan } from '../../../core/entry/vinScan.ts';
import { say } from '../../../core/words/index.ts';
import { useWedge } from '../../scan/useWedge.ts';
import { LENGTH_UNITS, lengthUnitOf, THEME_CHOICES, themeOf } from '../../state/screenChoice.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import type { JobList } from '../../state/windowState.ts';
import { sayKey } from '../../text/sayKey.ts';
import { Button } from '../../ui/Button.tsx';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { ProductMark } from '../../ui/Icon.tsx';
import { LanguageChoice } from '../../ui/LanguageChoice.tsx';
import { ErrorNotice, Notice } from '../../ui/Notice.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { PersonChooser } from '../Job/PersonChooser.tsx';
import { ClickerKeys } from './ClickerKeys.tsx';
import { JobTable } from './JobTable.tsx';
import { NewJob } from './NewJob.tsx';
import { StoreNotice } from './StoreNotice.tsx';

/** How long typing must rest before the list is asked for, ms. */
const SEARCH_AFTER_MS = 150;

function useSearch(): readonly [string, (text: string) => void] {
  const actions = useActions();
  const [text, setText] = useState(useWindow((state) => state.list?.search ?? ''));
  useEffect(() => {
    const timer = window.setTimeout(() => void actions.search(text), SEARCH_AFTER_MS);
    return () => window.clearTimeout(timer);
  }, [actions, text]);
  return [text, setText];
}

/** How this PC's screen is set: seldom touched, so it stands at the foot. */
function HomeFoot(): ReactNode {
  const actions = useActions();
  const theme = useWindow((state) => state.theme);
  const language = useWindow((state) => state.language);
  const lengthUnit = useWindow((state) => state.lengthUnit);
  const [clicker, setClicker] = useState(false);
  return (
    <footer className="home-foot">
      <LanguageChoice
        label={say('language.label')}
        testId="language"
        chosen={language}
        onChoose={actions.chooseLanguage}
      />
      <ChoiceButtons
        label={say('lengthUnit.label')}
        testId="length-unit"
        items={LENGTH_UNITS.map((value) => ({ value, text: say(`lengthUnit.${value}`) }))}
        chosen={[lengthUnit]}
        onChoose={([value]) => actions.chooseLengthUnit(lengthUnitOf(value ?? null))}
      />
      <span className="quiet">{say('theme.label')}</span>
      <ChoiceButtons
        label={say('theme.label')}
        testId="theme"
        items={THEME_CHOICES.map((value) => ({ value, text: say(`theme.${value}`) }))}
        chosen={[theme]}
        onChoose={([value]) => actions.chooseTheme(themeOf(value ?? null))}
      />
      <Button icon="done" onPress={() => setClicker(true)} testId="clicker">
        {say('clicker.title')}
      </Button>
      {clicker ? <ClickerKeys onClose={() => setClicker(false)} /> : null}
      <Button icon="lock" shortcut="F9" onPress={() => actions.coverWith('wipe')} testId="wipe">
        {say('wipe.open')}
      </Button>
    </footer>
  );
}

/** A new job being opened; the VIN is there when it was scanned. */
interface Opening {
  readonly vin: string;
}

/** In the order of urgency. */
const WAITS = [
  'waits.decision',
  'waits.signature',
  'waits.issuing',
  'waits.work',
  'waits.nothing',
] as const satisfies readonly WaitsFor[];

/** What waits for whom, with how many of each: a touch shows those alone. */
function WaitingFilter({
  list,
  onChoose,
}: {
  readonly list: JobList;
  readonly onChoose: (waitsFor: readonly WaitsFor[]) => void;
}): ReactNode {
  const waiting = WAITS.filter((each) => (list.waiting?.[each] ?? 0) > 0 || list.waitsFor.includes(each));
  if (waiting.length < 2 && list.waitsFor.length === 0) return null;
  const counted = (what: string, count: number) => say('home.waitingCount', { what, count: String(count) });
  const all = Object.values(list.waiting ?? {}).reduce((sum, count) => sum + count, 0);
  return (
    <ChoiceButtons
      label={say('home.waitsFor')}
      testId="waiting"
      items={[
        { value: 'all', text: counted(say('home.all'), all) },
        ...waiting.map((value) => ({ value, text: counted(say(value), list.waiting?.[value] ?? 0) })),
      ]}
      chosen={[list.waitsFor[0] ?? 'all']}
      onChoose={([value]) => onChoose(waiting.filter((each) => each === value))}
    />
  );
}

export function HomeScreen(): ReactNode {
  const actions = useActions();
  const shop = useWindow((state) => state.status?.shop ?? null);
  const store = useWindow((state) => state.status?.store);
  const problem = useWindow((state) => state.problem);
  const list = useWindow((state) => state.list);
  const [text, setText] = useSearch();
  const [opening, setOpening] = useState<Opening | null>(null);
  const [said, setSaid] = useState('');
  const [rehearsing, setRehearsing] = useState(false);
  useWedge(
    useCallback((scanned) => {
      const read = vinFromScan(scanned);
      setSaid(read.ok ? '' : sayKey(read.error.key, read.error.values));
      if (read.ok) setOpening({ vin: read.value.vin });
    }, []),
  );
  return (
    <main className="page page-home">
      <div className="page-head">
        <ProductMark size={40} />
        <div className="page-title">
          <h1>{shop?.name ?? ''}</h1>
          {shop?.demo === true ? <span className="quiet">{say('home.demo')}</span> : null}
        </div>
        <PersonChooser />
        <Button icon="shop" onPress={() => actions.go({ screen: 'shop' })} testId="go-shop">
          {say('shop.open')}
        </Button>
        <Button icon="check" onPress={() => actions.go({ screen: 'check' })} testId="go-check">
          {say('check.screen')}
        </Button>
      </div>
      {store === undefined ? null : <StoreNotice store={store} readable={shop !== null} />}
      {problem === null ? null : <ErrorNotice error={problem} />}
      <div className="home-tools">
        <TextEntry label={say('home.search')} value={text} mark="none" onChange={setText} />
        <Button
          icon="repeat"
          disabled={rehearsing || (store !== undefined && store.state !== 'ready')}
          onPress={() => {
            setRehearsing(true);
            void actions.rehearse().finally(() => setRehearsing(false));
          }}
          testId="rehearse"
        >
          {say(rehearsing ? 'rehearsal.starting' : 'rehearsal.start')}
        </Button>
        <Button
          weight="main"
          icon="add"
          disabled={store !== undefined && store.state !== 'ready'}
          onPress={() => setOpening({ vin: '' })}
          testId="new-job"
        >
          {say('home.newJob')}
        </Button>
      </div>
      {said === '' ? null : (
        <Notice
          title={said}
          buttons={
            <Button icon="close" weight="quiet" onPress={() => setSaid('')}>
              {say('act.close')}
            </Button>
          }
        />
      )}
      {list === null ? (
        <p>{say('wait.list')}</p>
      ) : (
        <>
          <WaitingFilter list={list} onChoose={(waitsFor) => void actions.search(text, waitsFor)} />
          <JobTable rows={list.rows} search={list.search} />
          {list.rows.length < list.total ? (
            <Button icon="down" onPress={() => void actions.listMore()} testId="more-jobs">
              {say('home.showMore', { shown: String(list.rows.length), total: String(list.total) })}
            </Button>
          ) : null}
        </>
      )}
      <HomeFoot />
      {opening === null ? null : <NewJob startVin={opening.vin} onClose={() => setOpening(null)} />}
    </main>
  );
}
