/** One good input, one good output and bad inputs for every call: a new call without them does not compile. */

import type { CallName, Input, Output } from '../../core/contract/index.ts';
import { invented } from '../core/procedure/invented.ts';

const uuid = '01890000-0000-7000-8000-000000000001';
const digest = 'a'.repeat(64);
const event = { text: '{}', hash: digest };

const format: Input<'instrument.test'>['format'] = {
  pattern: '(?<value>[-+0-9.]+)',
  kind: 'length',
  unit: 'mm',
  channel: '',
  good: [],
};
const tcp = { kind: 'tcp', host: '10.0.0.7', port: 4001 } as const;
const serial = {
  kind: 'serial',
  port: 'ttyUSB0',
  baud: 9600,
  dataBits: 8,
  stopBits: 1,
  parity: 'none',
} as const;

const status: Output<'app.status'> = {
  version: '0.1.0',
  build: 'development',
  store: { state: 'ready', detail: '' },
  shop: null,
  key: 'none',
  rootFingerprint: '',
};

const certificate: Output<'certificate.issue'> = {
  number: 'QUAY-B1-2026-0001',
  edition: 1,
  kind: 'calibrated',
  fileDigest: digest,
  issuedAtUtcMs: 1_770_000_000_000,
  job: uuid,
  plate: 'HB 1204',
};

export type Examples = {
  readonly [N in CallName]: {
    readonly input: Input<N>;
    readonly output: Output<N>;
    /** Inputs that must be refused, each with why. */
    readonly refused: readonly (readonly [string, unknown])[];
  };
};

export const examples: Examples = {
  'instrument.test': {
    input: { format, lines: ['+1.5', 'ERR'] },
    output: {
      fits: false,
      problem: null,
      lines: [
        { line: '+1.5', value: { value: 1.5, unit: 'mm', channel: '', quality: '' }, fault: null },
        { line: 'ERR', value: null, fault: { key: 'instrument.noMatch', values: {} } },
      ],
      take: { n: 1, mean: 1.5, s: null },
    },
    refused: [
      ['a pattern of a page', { format: { ...format, pattern: '1'.repeat(201) }, lines: [] }],
      ['a kind of its own', { format: { ...format, kind: 'mood' }, lines: [] }],
      ['a line that is longer than any', { format, lines: ['1'.repeat(257)] }],
      ['a book of lines', { format, lines: Array.from({ length: 51 }, () => '1') }],
    ],
  },
  'instrument.ports': { input: {}, output: { ports: ['ttyUSB0'] }, refused: [['a folder', { folder: '/' }]] },
  'instrument.connect': {
    input: { instrument: 'gauge-1', source: serial, format },
    output: { problem: { key: 'instrument.noValueGroup', values: {} } },
    refused: [
      ['a path for a port', { instrument: 'g', source: { ...serial, port: '/dev/sda' }, format: null }],
      ['a path in a port', { instrument: 'g', source: { ...serial, port: 'ttyUSB0/../sda' }, format: null }],
      ['a port beyond the last', { instrument: 'g', source: { ...tcp, port: 65_536 }, format: null }],
      [
        'a host that is an address of the web',
        { instrument: 'g', source: { ...tcp, host: 'http://x' }, format },
      ],
      ['another kind of source', { instrument: 'g', source: { kind: 'file', path: '/etc/passwd' }, format }],
      ['no word about the format', { instrument: 'g', source: tcp }],
    ],
  },
  'instrument.disconnect': {
    input: { instrument: 'gauge-1' },
    output: {},
    refused: [['no instrument', {}]],
  },
  'instrument.states': {
    input: {},
    output: {
      connections: [
        {
          instrument: 'gauge-1',
          state: 'waiting',
          fault: { key: 'instrument.refused', values: { place: '10.0.0.7:4001' } },
          nextTryMs: 500,
          lastLineAgoMs: null,
        },
      ],
    },
    refused: [['a question about one', { instrument: 'gauge-1' }]],
  },
  'app.status': { input: {}, output: status, refused: [['an unknown member', { verbose: true }]] },
  'shop.openDemo': {
    input: { commandId: uuid },
    output: status,
    refused: [
      ['no command id', {}],
      ['a command id that is no UUIDv7', { commandId: 'x' }],
    ],
  },
  'shop.setUp': {
    input: {
      commandId: uuid,
      name: 'Quayside',
      code: 'QUAY',
      address: 'Slipway 4\nPort Harrow',
      bayName: 'Bay 1',
      personName: 'Ida Strand',
      qualification: '',
      passphrase: 'long enough',
    },
    output: { status, rootKeyFile: 'AA==', rootKeyFileName: 'QUAY-shop-root.dtlkey' },
    refused: [
      [
        'a short passphrase',
        {
          commandId: uuid,
          name: 'Quayside',
          code: 'QUAY',
          address: '',
          bayName: 'Bay 1',
          personName: 'Ida',
          qualification: '',
          passphrase: 'short',
        },
      ],
    ],
  },
  'shop.record': {
    input: {
      person: 'owner',
      commandId: uuid,
      shop: {
        name: 'Quayside',
        code: 'QUAY',
        address: [],
        contact: '',
        demo: false,
        decisionRule: 'guarded',
        paper: 'A4',
        bays: [{ code: '1', name: 'Bay 1' }],
        people: [{ id: 'owner', name: 'Ida', roles: ['owner'], qualification: '' }],
        instruments: [],
        sideArms: [],
        fixtures: [],
        targets: [],
        procedures: [],
      },
    },
    output: status,
    refused: [['a shop without people', { person: 'owner', commandId: uuid, shop: { name: 'Quayside' } }]],
  },
  'shop.recordProcedure': {
    input: { person: 'mira', commandId: uuid, procedure: invented },
    output: status,
    refused: [
      ['no procedure', { person: 'mira', commandId: uuid }],
      [
        'a procedure of another format',
        { person: 'mira', commandId: uuid, procedure: { ...invented, format: 'x' } },
      ],
      ['nobody', { commandId: uuid, procedure: invented }],
    ],
  },
  'shop.recordBay': {
    input: {
      person: 'mira',
      commandId: uuid,
      bay: '2',
      room: {
        outline: [
          [0, 0],
          [9000, 0],
          [9000, 5000],
        ],
        obstacles: [],
        survey: null,
        groundWorks: ['2026-03-02'],
      },
    },
    output: status,
    refused: [
      ['no room', { person: 'mira', commandId: uuid, bay: '2' }],
      [
        'a day that is none',
        {
          person: 'mira',
          commandId: uuid,
          bay: '2',
          room: { outline: [], obstacles: [], survey: null, groundWorks: ['spring'] },
        },
      ],
      [
        'an outline without numbers',
        {
          person: 'mira',
          commandId: uuid,
          bay: '2',
          room: { outline: [['0', 0]], obstacles: [], survey: null, groundWorks: [] },
        },
      ],
    ],
  },
  'key.open': {
    input: { passphrase: '' },
    output: status,
    refused: [['a passphrase of a book', { passphrase: 'x'.repeat(201) }]],
  },
  'job.list': {
    input: { search: 'HB', waitsFor: ['waits.work', 'waits.decision'], offset: 200, limit: 50 },
    output: {
      total: 1,
      rows: [
        {
          job: uuid,
          reference: 'B1-2026-0001',
          plate: 'HB 1204',
          vin: '',
          car: '',
          sensors: ['Forward camera'],
          stage: 'intake',
          waitsFor: 'waits.work',
          certificate: '',
          updatedUtcMs: 1_770_000_000_000,
        },
      ],
      waiting: { 'waits.work': 1 },
    },
    refused: [
      ['a search of a page', { search: 'x'.repeat(81) }],
      ['a state that no job waits in', { search: '', waitsFor: ['waits.rain'] }],
      ['more rows than one answer holds', { search: '', limit: 201 }],
      ['a place before the list', { search: '', offset: -1 }],
    ],
  },
  'job.create': {
    input: { person: 'ida', bay: '1', commandId: uuid, entries: [] },
    output: { job: uuid },
    refused: [
      [
        'an unknown event type',
        { person: 'ida', bay: '1', commandId: uuid, entries: [{ type: 'sqlRun', v: 1, payload: {} }] },
      ],
    ],
  },
  'job.read': {
    input: { job: uuid, afterSeq: 0 },
    output: {
      events: [event],
      drafts: [{ field: 'intake.plate', text: 'HB', savedAtUtcMs: 1 }],
      personal: { p1: 'Mara' },
    },
    refused: [
      ['a negative sequence', { job: uuid, afterSeq: -1 }],
      ['half an event', { job: uuid, afterSeq: 0.5 }],
      ['a job that is a path', { job: '../../etc/passwd', afterSeq: 0 }],
    ],
  },
  'job.record': {
    input: {
      person: 'ida',
      job: uuid,
      commandId: uuid,
      expectedSeq: 3,
      draft: 'intake.plate',
      entries: [{ type: 'fieldRecorded', v: 1, payload: { field: 'intake.plate' } }],
    },
    output: { events: [event], personal: {} },
    refused: [
      ['no entries', { person: 'ida', job: uuid, commandId: uuid, expectedSeq: 3, draft: null, entries: [] }],
      [
        'an entry of a version to come',
        {
          person: 'ida',
          job: uuid,
          commandId: uuid,
          expectedSeq: 3,
          draft: null,
          entries: [{ type: 'fieldRecorded', v: 2, payload: {} }],
        },
      ],
    ],
  },
  'draft.save': {
    input: { job: uuid, field: 'intake.plate', text: 'HB 12' },
    output: { savedAtUtcMs: 1_770_000_000_000 },
    refused: [['a field without a name', { job: uuid, field: '', text: '' }]],
  },
  'certificate.issue': {
    input: { person: 'ida', job: uuid, commandId: uuid, expectedSeq: 90, kind: 'calibrated', reason: '' },
    output: certificate,
    refused: [
      [
        'a kind of its own',
        { person: 'ida', job: uuid, commandId: uuid, expectedSeq: 90, kind: 'perfect', reason: '' },
      ],
    ],
  },
  'certificate.draft': {
    input: { person: 'greta', job: uuid, kind: 'notCalibrated', reason: 'time ran out' },
    output: { digest },
    refused: [
      ['a kind of its own', { person: 'greta', job: uuid, kind: 'perfect', reason: '' }],
      ['a place to put it', { person: 'greta', job: uuid, kind: 'calibrated', reason: '', path: '/tmp' }],
    ],
  },
  'certificate.list': {
    input: { job: null },
    output: { rows: [certificate] },
    refused: [['no job named', {}]],
  },
  'certificate.check': {
    input: { file: digest },
    output: {
      lines: [
        { id: 'signatureIntact', answer: 'yes', text: 'check.signature.intact', values: { moment: 'x' } },
      ],
      exitCode: 0,
    },
    refused: [
      ['a path in place of a digest', { file: '/etc/passwd' }],
      ['an upper-case digest', { file: 'A'.repeat(64) }],
    ],
  },
};
