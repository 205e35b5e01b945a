/** Bytes to the service first, then the fact that names them: a fact without its file is refused there. */
import type { PhotoStage } from '../../core/job/events.ts';
import { looksLikePicture } from '../../core/job/picture.ts';
import { storeFile } from '../api.ts';
import type { Actions } from '../state/actions.ts';
import { newId } from '../state/ids.ts';
import type { CallError } from '../state/ports.ts';
import { type CleanPicture, cleanPicture } from './cleanPicture.ts';

/** A photo with what it shows, at a stage. Answers why it was not kept, or undefined. */
export async function keepPhoto(
  actions: Pick<Actions, 'record'>,
  job: string,
  photo: {
    readonly picture: CleanPicture;
    readonly shows: string;
    readonly stage: PhotoStage;
    readonly sensor: string | null;
    readonly station: string | null;
  },
): Promise<CallError | undefined> {
  const { picture, shows, stage, sensor, station } = photo;
  const stored = await storeFile(picture.blob);
  if (!stored.ok) return stored.error;
  const { digest, sizeBytes } = stored.value;
  const payload = {
    photo: newId(),
    stage,
    sensor,
    station,
    digest,
    mediaType: 'image/jpeg',
    sizeBytes,
    widthPx: picture.widthPx,
    heightPx: picture.heightPx,
    shows: { personal: shows },
  };
  const answer = await actions.record(job, [{ type: 'photoAdded', v: 1, payload }]);
  return answer.ok ? undefined : answer.error;
}

const PDF_START = '%PDF-';

/** A scan tool's report: a PDF as it is, a picture made anew. */
export async function keepReport(
  actions: Pick<Actions, 'record'>,
  job: string,
  report: {
    readonly file: File;
    readonly sensor: string;
    readonly tool: string;
    readonly software: string;
  },
): Promise<CallError | undefined> {
  const { file, sensor, tool, software } = report;
  const start = new Uint8Array(await file.slice(0, 8).arrayBuffer());
  const isPdf = String.fromCharCode(...start).startsWith(PDF_START);
  if (!isPdf && !looksLikePicture(start)) {
    return { code: 'picture/notAPicture', details: {}, traceId: '' };
  }
  const picture = isPdf ? undefined : await cleanPicture(file);
  if (picture?.ok === false) return { code: picture.error, details: {}, traceId: '' };
  const stored = await storeFile(picture === undefined ? file : picture.value.blob);
  if (!stored.ok) return stored.error;
  const { digest, sizeBytes } = stored.value;
  const mediaType = isPdf ? 'application/pdf' : 'image/jpeg';
  const payload = { report: newId(), sensor, digest, mediaType, sizeBytes, tool, software };
  const answer = await actions.record(job, [{ type: 'reportAttached', v: 1, payload }]);
  return answer.ok ? undefined : answer.error;
}
