/** Why nothing new is recorded now: what is wrong with the record, what to do next, and that nothing was touched. */
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import type { Status } from '../../state/windowState.ts';
import { Notice } from '../../ui/Notice.tsx';

export function StoreNotice({
  store,
  readable,
}: {
  readonly store: Status['store'];
  /** Whether what is recorded can be shown, if only from a copy. */
  readonly readable: boolean;
}): ReactNode {
  if (store.state === 'ready') return null;
  return (
    <div data-testid="store-notice" data-state={store.state}>
      <Notice tone="trouble" title={say(`store.${store.state}`)}>
        <p>{say(`store.${store.state}.next`)}</p>
        <p>{say(readable ? 'store.what' : 'store.unseen')}</p>
        {store.detail === '' ? null : <p className="quiet">{store.detail}</p>}
      </Notice>
    </div>
  );
}
