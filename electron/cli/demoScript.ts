/**
 * A job as a technician types it, step by step: texts as typed, choices by their value. The command line plays it
 * against the service; the test in the real window types the same texts. Nothing in it is a result.
 */
import { z } from 'zod';
import {
  certificateKindSchema,
  dispositionSchema,
  placeSchema,
  sensorKindSchema,
} from '../../core/job/events.ts';

const ref = z.string().regex(/^[A-Za-z0-9._-]{1,60}$/);

const step = z.discriminatedUnion('do', [
  /** `text` as typed; yes or no for a confirmation, the value of a choice, values with commas for several choices. */
  z.strictObject({ do: z.literal('field'), field: z.string(), at: placeSchema, text: z.string() }),
  z.strictObject({
    do: z.literal('sensor'),
    sensor: ref,
    kind: sensorKindSchema,
    name: z.string(),
    disposition: dispositionSchema,
    source: z.string(),
    /** Ids of things in the shop; null where nothing is calibrated here. */
    procedure: ref.nullable(),
    fixture: ref.nullable(),
    target: ref.nullable(),
    work: z.enum(['typical', 'careful', 'best']),
  }),
  z.strictObject({
    do: z.literal('reading'),
    quantity: z.string(),
    sensor: ref.nullable(),
    station: ref.nullable(),
    text: z.string(),
    direction: z.string().nullable(),
    purpose: z.enum(['proof', 'control', 'guide']),
  }),
  z.strictObject({
    do: z.literal('moved'),
    body: z.enum(['car', 'fixture']),
    cause: z.enum(['moveDone', 'moved', 'settledAgain']),
    words: z.string(),
  }),
  z.strictObject({
    do: z.literal('capture'),
    sensor: ref,
    station: ref,
    result: z.enum(['passed', 'failed', 'interrupted']),
    cause: z.string(),
    change: z.string(),
  }),
  /** Print what the readings so far say of this sensor's placement. */
  z.strictObject({ do: z.literal('show'), sensor: ref }),
  z.strictObject({ do: z.literal('sign'), kind: certificateKindSchema, reason: z.string() }),
]);

export const demoScriptSchema = z.strictObject({
  format: z.literal('datumline-demo-job-1'),
  title: z.string(),
  person: ref,
  signer: ref,
  bay: ref,
  steps: z.array(step).min(1),
});

export type DemoScript = z.infer<typeof demoScriptSchema>;
export type DemoStep = DemoScript['steps'][number];
