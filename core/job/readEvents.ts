/** From stored texts and envelopes to events whose payloads passed their strict schemas: what the reducer trusts. */
import { err, ok, type Result } from '../result.ts';
import { type EventEnvelope, parseEvent } from './event.ts';
import { type EventType, eventTypes, payloadSchema } from './events.ts';
import type { JobEvent } from './reduce.ts';

/** Why stored texts are no events of ours. `seq` is the event's own number where it has one, else 0. */
export interface ReadEventsError {
  readonly code: 'events/unreadable' | 'events/unknownType' | 'events/badPayload';
  readonly details: { readonly seq: number; readonly problem: string };
}

/** Whether a type is one of this edition's events. */
export function isEventType(type: string): type is EventType {
  return (eventTypes as readonly string[]).includes(type);
}

/** Says what is wrong with a payload, or undefined: the check every append passes. */
export function payloadProblem(type: string, v: number, payload: unknown): string | undefined {
  if (!isEventType(type)) return `no event type ${type}`;
  if (v !== 1) return `no version ${v} of ${type}`;
  const issue = payloadSchema(type).safeParse(payload).error?.issues[0];
  return issue === undefined ? undefined : `${issue.path.join('.')}: ${issue.message}`;
}

/** Reads envelopes, whose payloads may be of any type, as events. */
export function eventsOfEnvelopes(
  envelopes: readonly EventEnvelope[],
): Result<readonly JobEvent[], ReadEventsError> {
  const events: JobEvent[] = [];
  for (const { type, v, payload, job, seq, at, person } of envelopes) {
    if (!isEventType(type)) {
      return err({ code: 'events/unknownType', details: { seq, problem: type } });
    }
    const problem = payloadProblem(type, v, payload);
    if (problem !== undefined) return err({ code: 'events/badPayload', details: { seq, problem } });
    // The payload has just passed this very type's schema; the compiler cannot follow that through the table.
    events.push({ job, seq, type, at, person, payload } as unknown as JobEvent);
  }
  return ok(events);
}

/** Reads stored texts as events. */
export function eventsOfTexts(texts: readonly string[]): Result<readonly JobEvent[], ReadEventsError> {
  const envelopes: EventEnvelope[] = [];
  for (const text of texts) {
    const parsed = parseEvent(text);
    if (!parsed.ok) {
      return err({ code: 'events/unreadable', details: { seq: 0, problem: parsed.error.details.problem } });
    }
    envelopes.push(parsed.value);
  }
  return eventsOfEnvelopes(envelopes);
}
