/** The photos of a stage: taken, chosen, shown with what they show, struck. */
import { type ReactNode, useState } from 'react';
import { FileTrigger } from 'react-aria-components';
import type { PhotoStage } from '../../../core/job/events.ts';
import { type JobPhoto, standingPhotos } from '../../../core/job/job.ts';
import { say } from '../../../core/words/index.ts';
import { fileAddress } from '../../api.ts';
import { type CleanPicture, cleanPicture } from '../../photos/cleanPicture.ts';
import { keepPhoto } from '../../photos/keepFiles.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import type { CallError } from '../../state/ports.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { Dialog } from '../../ui/Dialog.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { PhotoDialog } from './PhotoDialog.tsx';

const STRIKES = ['wrongPhoto', 'blurred', 'showsPerson', 'other'] as const;

function StrikePhoto({
  photo,
  job,
  onClose,
}: {
  readonly photo: string;
  readonly job: string;
  readonly onClose: () => void;
}): ReactNode {
  const actions = useActions();
  return (
    <Dialog title={say('photo.strike.title')} open onClose={onClose}>
      <ChoiceButtons
        label={say('photo.strike.title')}
        items={STRIKES.map((value) => ({ value, text: say(`photo.struck.${value}`) }))}
        chosen={[]}
        onChoose={([reason]) => {
          void actions.record(job, [{ type: 'photoStruck', v: 1, payload: { photo, reason } }]);
          onClose();
        }}
      />
    </Dialog>
  );
}

function Photo({ photo, held }: { readonly photo: JobPhoto; readonly held: HeldJob }): ReactNode {
  const [striking, setStriking] = useState(false);
  const shows = held.personal[photo.shows.personalId] ?? say('photo.erased');
  return (
    <figure className="photo" data-photo={photo.photo}>
      <img src={fileAddress(photo.digest)} alt={shows} loading="lazy" />
      <figcaption>{shows}</figcaption>
      <Button weight="quiet" icon="strike" onPress={() => setStriking(true)}>
        {say('photo.strike')}
      </Button>
      {striking ? (
        <StrikePhoto photo={photo.photo} job={held.job.id} onClose={() => setStriking(false)} />
      ) : null}
    </figure>
  );
}

export function PhotoPanel({
  held,
  stage,
  sensor = null,
  station = null,
}: {
  readonly held: HeldJob;
  readonly stage: PhotoStage;
  readonly sensor?: string | null;
  readonly station?: string | null;
}): ReactNode {
  const actions = useActions();
  const [open, setOpen] = useState<{ readonly first: CleanPicture | undefined } | null>(null);
  const [error, setError] = useState<CallError | null>(null);
  const photos = standingPhotos(held.job).filter((each) => each.stage === stage);
  const choose = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    const picture = await cleanPicture(file);
    setError(picture.ok ? null : { code: picture.error, details: {}, traceId: '' });
    if (picture.ok) setOpen({ first: picture.value });
  };
  return (
    <section className="sheet photos" data-testid="photos">
      <div className="photos-head">
        <h2 className="overline">{say('photo.title')}</h2>
        <Button icon="camera" onPress={() => setOpen({ first: undefined })}>
          {say('photo.camera')}
        </Button>
        <FileTrigger
          acceptedFileTypes={['image/jpeg', 'image/png']}
          onSelect={(files) => void choose(files?.[0])}
        >
          <Button icon="document">{say('photo.file')}</Button>
        </FileTrigger>
        {photos.length === 0 ? <span className="quiet">{say('photo.none')}</span> : null}
      </div>
      {error === null ? null : <ErrorNotice error={error} />}
      {photos.length === 0 ? null : (
        <div className="photo-row">
          {photos.map((photo) => (
            <Photo key={photo.photo} photo={photo} held={held} />
          ))}
        </div>
      )}
      {open === null ? null : (
        <PhotoDialog
          first={open.first}
          onKeep={(picture, shows) =>
            keepPhoto(actions, held.job.id, { picture, shows, stage, sensor, station })
          }
          onClose={() => setOpen(null)}
        />
      )}
    </section>
  );
}
