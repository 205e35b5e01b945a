/** The evidence after the first page: equipment, checks, the car as found, readings, timeline, how to check. */
import { adhesiveClock, movableText } from '../job/adhesiveClock.ts';
import { alignmentFacts } from '../job/alignment.ts';
import { alignmentTexts } from '../job/alignmentText.ts';
import type { Equipment } from '../job/equipment.ts';
import type { JobSensor, RecordedReading } from '../job/job.ts';
import type { PlacementAnswer } from '../placement/placementAnswer.ts';
import { fixturePartOf } from '../placement/recipe.ts';
import { holds } from '../placement/setups.ts';
import { degFromRad, formatFixed } from '../units.ts';
import { say } from '../words/index.ts';
import type { DocumentBlock, DocumentSection, Fact, TableCell } from './document.ts';
import { recordedFacts } from './firstPage.ts';
import { amountText, type CertificateInput, momentText, numberText, personName, sayKey } from './input.ts';

/** A section of recorded fields; absent where nothing was recorded. */
export function fieldsSection(
  input: CertificateInput,
  heading: string,
  printed: Parameters<typeof recordedFacts>[1],
): readonly DocumentSection[] {
  const facts = recordedFacts(input, printed);
  return facts.length === 0 ? [] : [{ heading, blocks: [{ block: 'facts', columns: 2, facts }] }];
}

/** The same as a list of checks with their answers: labels that are whole sentences need the room of a table. */
export function checksSection(
  input: CertificateInput,
  heading: string,
  printed: Parameters<typeof recordedFacts>[1],
  more: readonly Fact[] = [],
): readonly DocumentSection[] {
  const facts = [...recordedFacts(input, printed), ...more];
  if (facts.length === 0) return [];
  return [
    {
      heading,
      blocks: [
        {
          block: 'table',
          rowHeadings: true,
          columns: [
            { heading: say('certificate.checked'), align: 'left', share: 7 },
            { heading: say('certificate.answer'), align: 'left', share: 3 },
          ],
          rows: facts.map((fact) => [{ text: fact.label, emphasis: 'plain' }, fact.value]),
        },
      ],
    },
  ];
}

/** What follows from the pre-checks: the report's totals, and from when the adhesive let the car be moved. */
export function precheckConclusions(input: CertificateInput): readonly Fact[] {
  const clock = adhesiveClock(input.job);
  const [day = '', time = ''] = clock === undefined ? [] : movableText(clock).split(' ');
  return [
    ...alignmentTexts(alignmentFacts(input.job)),
    ...(clock === undefined
      ? []
      : [{ label: say('certificate.adhesive'), value: say('certificate.adhesive.from', { day, time }) }]),
  ];
}

function slopeText(input: CertificateInput, id: string, value: number): string {
  const amount = amountText(input, id);
  return value < 0 ? say('certificate.datum.falling', { share: amount }) : amount;
}

function thrustText(input: CertificateInput, sensor: string, answer: PlacementAnswer): string {
  const thrust = answer.vehicle?.thrustLine;
  if (thrust === undefined) return say('certificate.datum.thrust.none');
  const side = !thrust.differs
    ? say('certificate.datum.same')
    : say(thrust.angle.value > 0 ? 'certificate.datum.turnedLeft' : 'certificate.datum.turnedRight');
  return say('certificate.datum.thrust.value', {
    angle: amountText(input, `${sensor}.vehicle.thrust`),
    U: numberText(input, `${sensor}.vehicle.thrust.U`),
    side,
  });
}

/** The car as the readings found it, and whether the readings agree with each other. */
export function datumSection(
  input: CertificateInput,
  sensor: JobSensor,
  answer: PlacementAnswer,
): readonly DocumentSection[] {
  const vehicle = answer.vehicle;
  if (vehicle === undefined) return [];
  const at = `${sensor.sensor}.vehicle`;
  const facts: readonly Fact[] = [
    ...(['wheelbase', 'trackFront', 'trackRear', 'rock'] as const).map((name) => ({
      label: say(`certificate.datum.${name}`),
      value: numberText(input, `${at}.${name}`),
    })),
    {
      label: say('certificate.datum.slopeAhead'),
      value: slopeText(input, `${at}.slopeAhead`, vehicle.slopeAheadRad),
    },
    {
      label: say('certificate.datum.slopeLeft'),
      value: slopeText(input, `${at}.slopeLeft`, vehicle.slopeLeftRad),
    },
    { label: say('certificate.datum.thrust'), value: thrustText(input, sensor.sensor, answer) },
  ];
  return [
    {
      heading: say('certificate.section.datum', { sensor: sensor.name }),
      blocks: [
        { block: 'facts', columns: 2, facts },
        { block: 'text', text: agreementText(answer) },
      ],
    },
  ];
}

function agreementText(answer: PlacementAnswer): string {
  const test = answer.globalTest;
  if (test === undefined) return say('certificate.globalTest.none');
  return say(test.passed ? 'certificate.globalTest.passed' : 'certificate.globalTest.failed', {
    chi: formatFixed(test.chiSquare, 2),
    dof: String(test.dof),
    limit: formatFixed(test.limit, 2),
  });
}

function equipmentRows(equipment: Equipment): readonly (readonly TableCell[])[] {
  const row = (
    thing: string,
    item: { readonly serial: string; readonly certificate: string; readonly dueOn: string },
  ): readonly TableCell[] => [thing, item.serial, item.certificate, item.dueOn];
  return [
    row(say('certificate.equipment.fixture', { name: equipment.fixture.name }), equipment.fixture),
    row(say('certificate.equipment.target', { name: equipment.target.name }), equipment.target),
    ...equipment.sideArms.map((arm) =>
      row(
        say('certificate.equipment.sideArm', {
          side: say(arm.side === 'left' ? 'side.carLeft' : 'side.carRight'),
          name: arm.name,
        }),
        arm,
      ),
    ),
    ...equipment.instruments.map((each) => row(each.name, each)),
  ];
}

/** Fixture, target and instruments with what makes them traceable. */
export function equipmentSection(input: CertificateInput): readonly DocumentSection[] {
  const blocks = input.job.sensors.flatMap((sensor): readonly DocumentBlock[] => {
    if (sensor.equipment === null) return [];
    return [
      {
        block: 'table',
        caption: sensor.name,
        rowHeadings: true,
        columns: [
          { heading: say('certificate.equipment.thing'), align: 'left', share: 5 },
          { heading: say('certificate.equipment.serial'), align: 'left', share: 3 },
          { heading: say('certificate.equipment.certificate'), align: 'left', share: 4 },
          { heading: say('certificate.equipment.due'), align: 'left', share: 2 },
        ],
        rows: equipmentRows(sensor.equipment),
      },
    ];
  });
  return blocks.length === 0 ? [] : [{ heading: say('certificate.section.instruments'), blocks }];
}

function readingState(input: CertificateInput, reading: RecordedReading): string {
  if (reading.struck !== null) {
    const { reason, words } = reading.struck;
    return say('certificate.readings.struck', {
      reason: sayKey(`certificate.strike.${reason}`, reason === 'other' ? { words } : {}),
    });
  }
  const { car, leftStands = {} } = input.job.setUps;
  if (reading.purpose === 'control') return say('certificate.readings.control');
  if (reading.purpose === 'guide') return say('certificate.readings.guide');
  const part = fixturePartOf(reading.quantity);
  const stands = [input.job.setUps, ...Object.values(leftStands)];
  const current =
    reading.carSetUp === car &&
    (part === undefined ||
      stands.some((stand) => holds(reading, { dependsOn: ['fixture'], part }, { ...stand, car })));
  return current || reading.quantity.startsWith('floor.')
    ? say('certificate.readings.used')
    : say('certificate.readings.earlier');
}

function readingRow(input: CertificateInput, reading: RecordedReading): readonly TableCell[] {
  const state = readingState(input, reading);
  const emphasis = reading.struck === null ? 'plain' : 'struck';
  const station = input.job.sensors
    .flatMap((sensor) => sensor.procedure?.stations ?? [])
    .find((each) => each.id === reading.station);
  const name = sayKey(`reading.${reading.quantity}`);
  const value =
    reading.unit === 'mm'
      ? `${formatFixed(reading.value, 1)} mm`
      : `${formatFixed(degFromRad(reading.value), 2)}°`;
  return [
    { text: station === undefined ? name : `${name}, ${station.name}`, emphasis: 'plain' },
    { text: reading.text, emphasis },
    { text: value, emphasis },
    say('certificate.readings.setUp', {
      car: String(reading.carSetUp),
      fixture: String(reading.fixtureSetUp),
    }),
    momentText(reading.stamp).slice(11),
    { text: state, emphasis: 'quiet' },
  ];
}

function countsText(input: CertificateInput): string {
  const { readings, moves } = input.job;
  const struck = readings.filter((each) => each.struck !== null).length;
  const seen = new Set<string>();
  let repeats = 0;
  for (const each of readings) {
    const slot = [each.quantity, each.station, each.purpose, each.carSetUp, each.fixtureSetUp].join('/');
    if (seen.has(slot)) repeats += 1;
    seen.add(slot);
  }
  return say('certificate.readings.counts', {
    readings: String(readings.length),
    repeats: String(repeats),
    struck: String(struck),
    moves: String(moves.filter((each) => each.body === 'fixture').length),
  });
}

/** Every reading as typed, with what became of it, and the counts of repeats and strikes. */
export function readingsSection(input: CertificateInput): readonly DocumentSection[] {
  if (input.job.readings.length === 0) return [];
  return [
    {
      heading: say('certificate.section.readings'),
      blocks: [
        { block: 'text', text: countsText(input) },
        {
          block: 'table',
          rowHeadings: true,
          columns: [
            { heading: say('certificate.readings.quantity'), align: 'left', share: 5 },
            { heading: say('certificate.readings.typed'), align: 'right', share: 2 },
            { heading: say('certificate.readings.value'), align: 'right', share: 2 },
            { heading: say('certificate.readings.setUps'), align: 'left', share: 3 },
            { heading: say('certificate.readings.at'), align: 'left', share: 1.2 },
            { heading: say('certificate.readings.state'), align: 'left', share: 3 },
          ],
          rows: input.job.readings.map((reading) => readingRow(input, reading)),
        },
      ],
    },
  ];
}

interface Moment {
  readonly seq: number;
  readonly at: string;
  readonly who: string;
  readonly what: string;
}

function moments(input: CertificateInput): readonly Moment[] {
  const { job } = input;
  const moment = (stamp: RecordedReading['stamp'], what: string): Moment => ({
    seq: stamp.seq,
    at: momentText(stamp),
    who: personName(input, stamp.person),
    what,
  });
  const stationName = (id: string) =>
    job.sensors.flatMap((each) => each.procedure?.stations ?? []).find((each) => each.id === id)?.name ?? id;
  return [
    moment(job.opened, say('certificate.timeline.opened')),
    ...job.moves.map((each) =>
      moment(each.stamp, say(`certificate.timeline.moved.${each.body}`, { setUp: String(each.setUp) })),
    ),
    ...job.captures.map((each) =>
      moment(
        each.stamp,
        say('certificate.timeline.capture', {
          station: stationName(each.station),
          result: captureText(each),
        }),
      ),
    ),
    ...job.readings.flatMap((each) =>
      each.struck === null
        ? []
        : [
            moment(
              each.struck.stamp,
              say('certificate.timeline.struck', {
                reading: sayKey(`reading.${each.quantity}`),
                reason: sayKey(
                  `certificate.strike.${each.struck.reason}`,
                  each.struck.reason === 'other' ? { words: each.struck.words } : {},
                ),
              }),
            ),
          ],
    ),
  ].sort((a, b) => a.seq - b.seq);
}

function captureText(capture: CertificateInput['job']['captures'][number]): string {
  switch (capture.result) {
    case 'passed':
      return say('certificate.timeline.capture.passed');
    case 'failed':
      return say('certificate.timeline.capture.failed', { cause: capture.cause, change: capture.change });
    case 'interrupted':
      return say('certificate.timeline.capture.interrupted', { cause: capture.cause });
  }
}

/** What happened when, apart from the readings themselves. */
export function timelineSection(input: CertificateInput): DocumentSection {
  return {
    heading: say('certificate.section.timeline'),
    blocks: [
      {
        block: 'table',
        columns: [
          { heading: say('certificate.time'), align: 'left', share: 2 },
          { heading: say('certificate.event'), align: 'left', share: 6 },
          { heading: say('certificate.label.who'), align: 'left', share: 3 },
        ],
        rows: moments(input).map((each) => [each.at, each.what, each.who]),
      },
    ],
  };
}

/** Cautions, and how anyone can check the document. */
export function closingSections(): readonly DocumentSection[] {
  return [
    {
      heading: say('certificate.section.cautions'),
      blocks: [{ block: 'list', items: [say('certificate.caution.1'), say('certificate.caution.2')] }],
    },
    {
      heading: say('certificate.section.check'),
      blocks: [
        {
          block: 'list',
          ordered: true,
          items: ([1, 2, 3, 4] as const).map((step) => say(`certificate.check.${step}`)),
        },
      ],
    },
  ];
}
