/** An error of the envelope in plain words: what happened, what to do next, whether the work is safe. */
import { say, slotsOf, templateOf } from '../../core/words/index.ts';
import type { CallError } from '../state/ports.ts';

export interface ErrorWords {
  readonly what: string;
  readonly next: string;
  readonly safe: string;
  /** Where to find it in the log; empty when it never left the window. */
  readonly trace: string;
}

function detailText(value: unknown): string {
  if (typeof value === 'string') return value;
  if (typeof value === 'number' || typeof value === 'boolean') return String(value);
  return value === undefined || value === null ? '' : JSON.stringify(value).slice(0, 120);
}

function sentence(key: string, fallback: string, details: CallError['details']): string {
  const template = templateOf(key) ?? fallback;
  let text = template;
  for (const slot of slotsOf(template)) text = text.replaceAll(`{${slot}}`, detailText(details[slot]));
  return text;
}

/** The three sentences of an error. A code that has none yet is named as it stands: never a blank. */
export function errorWords(error: CallError): ErrorWords {
  const { code, details, traceId } = error;
  return {
    what: sentence(`error.${code}.what`, say('error.unknown.what', { code }), details),
    next: sentence(`error.${code}.next`, say('error.unknown.next'), details),
    safe: sentence(`error.${code}.safe`, say('error.unknown.safe'), details),
    trace: traceId === '' ? '' : say('error.trace', { code, trace: traceId }),
  };
}
