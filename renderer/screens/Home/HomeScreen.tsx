/** Home: every job as one line, newest first; one search, one new job, who works here. */
import { type ReactNode, useEffect, useState } from 'react';
import { say } from '../../../core/words/index.ts';
import { THEME_CHOICES, themeOf } from '../../state/screenChoice.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { ProductMark } from '../../ui/Icon.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { PersonChooser } from '../Job/PersonChooser.tsx';
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
  return (
    <footer className="home-foot">
      <span className="quiet">{say('theme.label')}</span>
      <ChoiceButtons
        label={say('theme.label')}
        testId="theme"
        items={THEME_CHOICES.map((value) => ({ value, text: say(`theme.${value}`) }))}
        chosen={[theme]}
        onChoose={([value]) => actions.chooseTheme(themeOf(value ?? null))}
      />
      <Button icon="lock" shortcut="F9" onPress={() => actions.coverWith('wipe')} testId="wipe">
        {say('wipe.open')}
      </Button>
    </footer>
  );
}

export function HomeScreen(): ReactNode {
  const actions = useActions();
  const shop = useWindow((state) => state.status?.shop ?? null);
  const store = useWindow((state) => state.status?.store);
  const problem = useWindow((state) => state.problem);
  const list = useWindow((state) => state.list);
  const [text, setText] = useSearch();
  const [opening, setOpening] = useState(false);
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
          weight="main"
          icon="add"
          disabled={store !== undefined && store.state !== 'ready'}
          onPress={() => setOpening(true)}
          testId="new-job"
        >
          {say('home.newJob')}
        </Button>
      </div>
      {list === null ? (
        <p>{say('wait.list')}</p>
      ) : (
        <JobTable rows={list.rows} total={list.total} search={list.search} />
      )}
      <HomeFoot />
      {opening ? <NewJob onClose={() => setOpening(false)} /> : null}
    </main>
  );
}
