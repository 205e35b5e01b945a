/** The window: one store, one set of actions, and the screen the route names. */
import { lazy, type ReactNode, Suspense, useEffect, useState } from 'react';
import { say } from '../core/words/index.ts';
import { call, listen } from './api.ts';
import { FirstRunScreen } from './screens/FirstRun/FirstRunScreen.tsx';
import { HomeScreen } from './screens/Home/HomeScreen.tsx';
import { StoreNotice } from './screens/Home/StoreNotice.tsx';
import { createActions } from './state/actions.ts';
import { newId } from './state/ids.ts';
import type { Ports } from './state/ports.ts';
import { routeOf } from './state/route.ts';
import { useCoverKeys } from './state/useCoverKeys.ts';
import { useActions, useWindow, WindowProvider } from './state/windowContext.tsx';
import { createWindowStore } from './state/windowState.ts';
import { ErrorNotice } from './ui/Notice.tsx';
import { useLanguage } from './ui/useLanguage.ts';
import { useTheme } from './ui/useTheme.ts';
import { WipeLock } from './ui/WipeLock.tsx';
import './ui/tokens.css';
import './ui/base.css';
import './ui/controls.css';
import './ui/covers.css';
import './drawings/scene.css';
import './screens/pages.css';
import './screens/job.css';
import './screens/forms.css';
import './screens/desk.css';
import './screens/bay.css';
import './screens/cards.css';
import './screens/stations.css';
import './screens/signoff.css';
import './screens/procedure.css';
import './screens/large.css';

/** Screens with the solver in them are loaded when a job is opened: home opens sooner. */
const JobScreen = lazy(async () => ({ default: (await import('./screens/Job/JobScreen.tsx')).JobScreen }));
const ShopScreen = lazy(async () => ({
  default: (await import('./screens/Shop/ShopScreen.tsx')).ShopScreen,
}));
const ProcedureScreen = lazy(async () => ({
  default: (await import('./screens/Procedure/ProcedureScreen.tsx')).ProcedureScreen,
}));
const CheckScreen = lazy(async () => ({
  default: (await import('./screens/Check/CheckScreen.tsx')).CheckScreen,
}));

const ports: Ports = {
  call,
  onNotice: listen,
  nowUtcMs: () => Date.now(),
  newId,
  later: (ms, act) => {
    const timer = window.setTimeout(act, ms);
    return () => window.clearTimeout(timer);
  },
  frame: (act) => void window.requestAnimationFrame(act),
};

const FarScreen = lazy(async () => ({ default: (await import('./screens/Far/FarScreen.tsx')).FarScreen }));

/** While something is loaded: one heading, so that a reader for the blind is told too. */
function Waiting(): ReactNode {
  return (
    <main className="page">
      <h1>{say('wait.start')}</h1>
    </main>
  );
}

function Screen(): ReactNode {
  const status = useWindow((state) => state.status);
  const startError = useWindow((state) => state.startError);
  const route = useWindow((state) => state.route);
  // Words and lengths are asked for while drawing: a change of either draws the screen in sight anew.
  useWindow((state) => state.language);
  useWindow((state) => state.lengthUnit);
  if (route.screen === 'far') return <FarScreen />;
  if (startError !== null) {
    return (
      <main className="page">
        <ErrorNotice error={startError} />
      </main>
    );
  }
  if (status === null) return <Waiting />;
  if (status.shop === null && status.store.state !== 'ready') {
    return (
      <main className="page">
        <StoreNotice store={status.store} readable={false} />
      </main>
    );
  }
  if (status.shop === null) return <FirstRunScreen />;
  switch (route.screen) {
    case 'home':
      return <HomeScreen />;
    case 'check':
      return <CheckScreen />;
    case 'shop':
      return <ShopScreen />;
    case 'procedure':
      return <ProcedureScreen key={`${route.act} ${route.id}`} act={route.act} id={route.id} />;
    case 'job':
      return <JobScreen key={route.job} job={route.job} view={route.view} />;
  }
}

/** A service that is not there is said at once; what is typed meanwhile is kept and sent when it answers again. */
function ServiceLine(): ReactNode {
  const service = useWindow((state) => state.service);
  const status = useWindow((state) => state.status);
  if (status === null || service === 'running') return null;
  return (
    <div className="service-line" role="status" data-testid="service-line">
      {say('service.away')}
    </div>
  );
}

/** How the window is shown: its theme, its covers and the keys that lay them over it. */
function Setting(): ReactNode {
  const actions = useActions();
  useTheme(useWindow((state) => state.theme));
  useLanguage(useWindow((state) => state.language));
  useCoverKeys();
  const wiping = useWindow((state) => state.cover === 'wipe');
  return <WipeLock open={wiping} onUnlock={() => actions.coverWith('none')} />;
}

export function App(): ReactNode {
  const [held] = useState(() => {
    const store = createWindowStore(routeOf(window.location.hash));
    const kept = {
      read: (key: string) => window.localStorage.getItem(key),
      write: (key: string, value: string) => window.localStorage.setItem(key, value),
    };
    return { store, actions: createActions(store, ports, kept) };
  });
  useEffect(() => void held.actions.start(), [held]);
  return (
    <WindowProvider store={held.store} actions={held.actions}>
      <Setting />
      <ServiceLine />
      <Suspense fallback={<Waiting />}>
        <Screen />
      </Suspense>
    </WindowProvider>
  );
}
