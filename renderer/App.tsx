/** The first page: what this installation is and where its record stands. */
import { useEffect, useState } from 'react';
import type { Output } from '../core/contract/index.ts';
import { call, listen } from './api.ts';

export function App() {
  const [status, setStatus] = useState<Output<'app.status'>>();
  const [trouble, setTrouble] = useState('');

  useEffect(() => {
    const ask = async () => {
      const answer = await call('app.status', {});
      if (answer.ok) setStatus(answer.value);
      setTrouble(answer.ok ? '' : answer.error.code);
    };
    void ask();
    return listen('service.state', ({ state }) => (state === 'running' ? void ask() : setTrouble(state)));
  }, []);

  return (
    <main>
      <h1>Datumline{status?.build === 'test build' ? ' - test build' : ''}</h1>
      {status && (
        <dl>
          <dt>Version</dt>
          <dd>{status.version}</dd>
          <dt>Build</dt>
          <dd>{status.build}</dd>
          <dt>Record</dt>
          <dd>{status.store.state}</dd>
        </dl>
      )}
      <p role="status">{trouble}</p>
    </main>
  );
}
