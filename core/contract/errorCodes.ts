/**
 * Every code with which a call can be refused: a closed list, so that no refusal is without its words
 * (`core/words/errors.ts`: what happened, what to do next, whether the work is safe).
 */
import { journalErrorCodes } from '../job/journalError.ts';

/** Codes beside the journal's own. */
const otherCodes = [
  'call/unknown',
  'call/refused',
  'call/unreachable',
  'call/invalid',
  'call/tooLarge',
  'service/fault',
  'service/interrupted',
  'service/stopped',
  'store/readOnly',
  'store/unreadable',
  'events/unreadable',
  'events/unknownType',
  'events/badPayload',
  'shop/none',
  'shop/noBay',
  'shop/exists',
  'procedure/notInOwnName',
  'procedure/reviewNotFitting',
  'procedure/editionTaken',
  'person/unknown',
  'person/notAllowed',
  'job/notForWindow',
  'job/signed',
  'keys/missing',
  'keys/locked',
  'keys/wrongPassphrase',
  'keys/damaged',
  'certificate/none',
  'certificate/incomplete',
  'certificate/glyphMissing',
  'certificate/noEmptySignature',
  'certificate/wrongKey',
  'certificate/selfCheckFailed',
  'certificate/storeFull',
  'certificate/storeNotWritable',
  'file/missing',
  'file/tooLarge',
  'file/empty',
  'file/notStored',
  'picture/notAPicture',
  'picture/broken',
  'picture/carriesData',
  'picture/tooLarge',
  'picture/otherFile',
] as const;

/** All codes, for the test that asks for words. */
export const errorCodes = [...journalErrorCodes, ...otherCodes] as const;

/** One of them. */
export type ErrorCode = (typeof errorCodes)[number];

/** Whether a text is one of the codes; anything else from outside is shown as it stands. */
export function isErrorCode(text: string): text is ErrorCode {
  return (errorCodes as readonly string[]).includes(text);
}
