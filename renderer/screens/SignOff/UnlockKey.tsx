/** The shop's signing key is locked after a start: its passphrase opens it. */
import { type ReactNode, useState } from 'react';
import { say } from '../../../core/words/index.ts';
import type { CallError } from '../../state/ports.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';

export function UnlockKey(): ReactNode {
  const actions = useActions();
  const demo = useWindow((state) => state.status?.shop?.demo ?? false);
  const [passphrase, setPassphrase] = useState('');
  const [error, setError] = useState<CallError | null>(null);
  const open = async (): Promise<void> => {
    const answer = await actions.openKey(passphrase);
    setError(answer.ok ? null : answer.error);
  };
  return (
    <div className="field" data-testid="unlock">
      <TextEntry
        secret
        label={say('key.passphrase')}
        value={passphrase}
        mark="none"
        {...(demo ? { hint: say('key.demoHint') } : {})}
        onChange={setPassphrase}
        onEnter={() => void open()}
      />
      <Button weight="main" disabled={passphrase === ''} onPress={() => void open()}>
        {say('key.open')}
      </Button>
      {error === null ? null : <ErrorNotice error={error} />}
    </div>
  );
}
