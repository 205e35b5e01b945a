/** One photo on its way in: taken or chosen, looked at, said what it shows, kept. */
import { type ReactNode, useEffect, useMemo, useState } from 'react';
import { say } from '../../../core/words/index.ts';
import type { CleanPicture } from '../../photos/cleanPicture.ts';
import type { CallError } from '../../state/ports.ts';
import { Button } from '../../ui/Button.tsx';
import { Dialog } from '../../ui/Dialog.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { CameraShot } from './CameraShot.tsx';

/** An address under which the window can show bytes it holds; given up with the component. */
function useAddress(blob: Blob | undefined): string | undefined {
  const address = useMemo(() => (blob === undefined ? undefined : URL.createObjectURL(blob)), [blob]);
  useEffect(
    () => () => {
      if (address !== undefined) URL.revokeObjectURL(address);
    },
    [address],
  );
  return address;
}

export function PhotoDialog({
  first,
  onKeep,
  onClose,
}: {
  /** A picture chosen from a file; absent: the camera is opened. */
  readonly first: CleanPicture | undefined;
  readonly onKeep: (picture: CleanPicture, shows: string) => Promise<CallError | undefined>;
  readonly onClose: () => void;
}): ReactNode {
  const [picture, setPicture] = useState(first);
  const [shows, setShows] = useState('');
  const [keeping, setKeeping] = useState(false);
  const [error, setError] = useState<CallError | undefined>(undefined);
  const address = useAddress(picture?.blob);
  const keep = async (): Promise<void> => {
    if (picture === undefined || shows.trim() === '' || keeping) return;
    setKeeping(true);
    const problem = await onKeep(picture, shows.trim());
    setKeeping(false);
    if (problem === undefined) onClose();
    else setError(problem);
  };
  return (
    <Dialog title={say('photo.title')} open onClose={onClose}>
      {picture === undefined ? (
        <CameraShot onShot={setPicture} />
      ) : (
        <>
          <img className="photo-large" src={address} alt={shows === '' ? say('photo.title') : shows} />
          <TextEntry
            autoFocus
            label={say('photo.shows')}
            hint={say('photo.shows.hint')}
            value={shows}
            mark="none"
            onChange={setShows}
            onEnter={() => void keep()}
          />
          <div className="choices">
            {first === undefined ? (
              <Button icon="repeat" onPress={() => setPicture(undefined)}>
                {say('photo.again')}
              </Button>
            ) : null}
            <Button weight="main" disabled={shows.trim() === '' || keeping} onPress={() => void keep()}>
              {say(keeping ? 'photo.keeping' : 'photo.keep')}
            </Button>
          </div>
        </>
      )}
      {error === undefined ? null : <ErrorNotice error={error} />}
    </Dialog>
  );
}
