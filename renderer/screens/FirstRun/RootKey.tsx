/** The owner's root key file, once: it is kept nowhere on this PC, so it must be saved before going on. */
import { type ReactNode, useState } from 'react';
import type { Output } from '../../../core/contract/index.ts';
import { say } from '../../../core/words/index.ts';
import { Button } from '../../ui/Button.tsx';

/** Offers bytes in base64 to the system's own "save as". */
export function saveBase64(base64: string, name: string): void {
  const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
  const address = URL.createObjectURL(new Blob([bytes], { type: 'application/octet-stream' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  window.setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** A fingerprint in groups of four, so that two people can read it to each other. */
export function fingerprintGroups(fingerprint: string): string {
  return fingerprint.match(/.{1,4}/g)?.join(' ') ?? '';
}

export function RootKey({
  made,
  onDone,
}: {
  readonly made: Output<'shop.setUp'>;
  readonly onDone: () => void;
}): ReactNode {
  const [saved, setSaved] = useState(false);
  return (
    <main className="page">
      <section className="sheet root-key" data-testid="root-key">
        <h1>{say('rootKey.title')}</h1>
        <p>{say('rootKey.words')}</p>
        <p>{say('rootKey.fingerprint')}</p>
        <p className="fingerprint">{fingerprintGroups(made.status.rootFingerprint)}</p>
        <div className="choices">
          <Button
            weight="main"
            icon="save"
            testId="save-root-key"
            onPress={() => {
              saveBase64(made.rootKeyFile, made.rootKeyFileName);
              setSaved(true);
            }}
          >
            {say('rootKey.save', { name: made.rootKeyFileName })}
          </Button>
          <Button disabled={!saved} onPress={onDone} testId="root-key-done">
            {say('rootKey.done')}
          </Button>
        </div>
      </section>
    </main>
  );
}
