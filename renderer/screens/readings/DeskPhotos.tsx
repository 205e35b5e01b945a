/** The photos of a stage of readings: one quiet button below everything else, which opens them in place. */
import { type ReactNode, useState } from 'react';
import type { PhotoStage } from '../../../core/job/events.ts';
import { standingPhotos } from '../../../core/job/job.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { Button } from '../../ui/Button.tsx';
import { PhotoPanel } from '../fields/PhotoPanel.tsx';

interface DeskPhotosProps {
  readonly held: HeldJob;
  readonly stage: PhotoStage;
  readonly sensor: string;
  readonly station?: string;
}

export function DeskPhotos({ held, stage, sensor, station }: DeskPhotosProps): ReactNode {
  const count = standingPhotos(held.job).filter((each) => each.stage === stage).length;
  // A signed job takes no touch: what it holds is in sight from the start.
  const [open, setOpen] = useState(count > 0 && held.job.certificates.length > 0);
  return (
    <>
      <Button
        className="desk-photos"
        weight="quiet"
        icon="camera"
        pressed={open}
        testId="photos-open"
        onPress={() => setOpen(!open)}
      >
        {count === 0 ? say('photo.title') : say('photo.count', { count: String(count) })}
      </Button>
      {open ? (
        <PhotoPanel
          held={held}
          stage={stage}
          sensor={sensor}
          {...(station === undefined ? {} : { station })}
        />
      ) : null}
    </>
  );
}
