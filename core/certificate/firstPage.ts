/** The first page: the answer per sensor, then who, what, why, when, by which rule, and what was not done. */
import { usedPieces } from '../job/dueDates.ts';
import type { JobSensor } from '../job/job.ts';
import { localMinute, offsetText } from '../job/localTime.ts';
import { stages } from '../job/stages/index.ts';
import type { Procedure } from '../procedure/schema.ts';
import { say } from '../words/index.ts';
import type { DocumentAnswer, DocumentBlock, Fact, VerdictKind } from './document.ts';
import { groupDigest } from './groupDigest.ts';
import { type CertificateInput, fieldText, momentText, personName, sayKey } from './input.ts';

const DONE_HERE = ['staticHere', 'dynamicRoad', 'initialiseOnly'];

/** Sensors that were ordered and not calibrated here, in words; one fixed phrase where there is none. */
export function notDoneText(input: CertificateInput): string {
  const items = input.job.sensors
    .filter((sensor) => sensor.disposition === null || !DONE_HERE.includes(sensor.disposition))
    .map((sensor) =>
      say('certificate.notDone.item', { sensor: sensor.name, disposition: dispositionText(sensor) }),
    );
  return items.length === 0 ? say('certificate.notDone.none') : items.join('\n');
}

function dispositionText(sensor: JobSensor): string {
  if (sensor.disposition === null) return '';
  const words = sayKey(`certificate.sensor.${sensor.disposition}`);
  return sensor.dispositionSource === '' ? words : `${words} (${sensor.dispositionSource})`;
}

/** The reason a job ended without calibration, in the signer's choice and words. */
export function reasonText(input: CertificateInput): string {
  const choice = fieldText(input, 'signoff.stopReason');
  // It stands inside a sentence that ends with its own full stop.
  const words = fieldText(input, 'signoff.stopWords').replace(/[.\s]+$/, '');
  return [choice, words].filter((each) => each !== '').join(': ');
}

function isToBeDoneHere(sensor: JobSensor): boolean {
  return sensor.disposition === null || DONE_HERE.includes(sensor.disposition);
}

function outcomeOf(input: CertificateInput, sensor: JobSensor): { outcome: string; verdict?: VerdictKind } {
  if (input.seal.kind === 'notCalibrated' && isToBeDoneHere(sensor)) {
    return { outcome: say('certificate.outcome.notCalibrated'), verdict: 'outside' };
  }
  if (sensor.disposition !== 'staticHere') {
    return DONE_HERE.includes(sensor.disposition ?? '')
      ? { outcome: say('certificate.outcome.routinePassed'), verdict: 'proven' }
      : notHere(sensor);
  }
  const stations = input.answers[sensor.sensor]?.stations ?? [];
  if (stations.some((each) => each.worst === 'cannotBeJudged')) {
    return { outcome: say('certificate.outcome.routineOnly'), verdict: 'notProven' };
  }
  return stations.every((each) => each.worst === 'proven' || each.worst === 'notJudged')
    ? { outcome: say('certificate.outcome.proven'), verdict: 'proven' }
    : { outcome: say('certificate.outcome.within'), verdict: 'notProven' };
}

/** A sensor that was not to be done here has no verdict; one whose calibration was refused stays without it. */
function notHere(sensor: JobSensor): { outcome: string; verdict?: VerdictKind } {
  const outcome = dispositionText(sensor);
  return sensor.disposition === 'refused' ? { outcome, verdict: 'outside' } : { outcome };
}

/** A rehearsal answers what was practised, in words that cannot be taken for a calibration. */
function rehearsalAnswer(input: CertificateInput): DocumentAnswer {
  const { job, seal } = input;
  const minutes = Math.max(1, Math.round((seal.issuedAtUtcMs - job.opened.utcMs) / 60_000));
  const struck = job.readings.filter((each) => each.struck !== null).length;
  return {
    words: say('certificate.kind.rehearsal'),
    sentence: say('certificate.sentence.rehearsal', {
      minutes: String(minutes),
      readings: String(job.readings.length),
      struck: String(struck),
      moves: String(job.moves.filter((each) => each.cause === 'moveDone').length),
    }),
    sensors: job.sensors.map((sensor) => ({ name: sensor.name, ...outcomeOf(input, sensor) })),
  };
}

/** The answer in large words, one sentence, and a line per sensor. */
export function answerOf(input: CertificateInput): DocumentAnswer {
  const kind = input.seal.kind;
  if (input.job.rehearsal) return rehearsalAnswer(input);
  return {
    words: say(`certificate.kind.${kind}`),
    sentence:
      kind === 'notCalibrated'
        ? say('certificate.sentence.notCalibrated', { reason: reasonText(input) })
        : say(`certificate.sentence.${kind}`),
    sensors: input.job.sensors.map((sensor) => ({ name: sensor.name, ...outcomeOf(input, sensor) })),
  };
}

function procedureText(input: CertificateInput): string {
  const lines = input.job.sensors.flatMap((sensor) => {
    const procedure = sensor.procedure;
    if (procedure === null) return [];
    const { document, section, readOn } = procedure.source;
    const edition = String(procedure.edition);
    return [
      say('certificate.procedure', { sensor: sensor.name, document, section, readOn, edition }),
      reviewText(procedure.source),
    ];
  });
  return lines.join('\n');
}

/** Who looked at the entry a second time and in which way; the day and the count where they are known. */
function reviewText({ enteredBy, reviewedBy, reviewWay, review }: Procedure['source']): string {
  const way = say(`certificate.review.${reviewWay}`);
  if (reviewWay === 'unreviewed') return way;
  const by = [reviewedBy ?? enteredBy, ...(review?.shop === undefined ? [] : [review.shop])].join(', ');
  return review === undefined
    ? say('certificate.review.by', { way, by })
    : say('certificate.review.byOn', { way, by, values: String(review.values), on: review.on });
}

function facts(input: CertificateInput): readonly Fact[] {
  const { job, seal } = input;
  const opened = momentText(job.opened);
  const fact = (label: string, value: string): readonly Fact[] => (value === '' ? [] : [{ label, value }]);
  const vehicle = [
    `${fieldText(input, 'intake.make')} ${fieldText(input, 'intake.model')}`.trim(),
    fieldText(input, 'intake.plate'),
    fieldText(input, 'intake.vin'),
  ];
  const odometer = [fieldText(input, 'intake.odometerIn'), fieldText(input, 'outcome.odometerOut')];
  return [
    ...fact(say('certificate.label.vehicle'), vehicle.filter((each) => each !== '').join('\n')),
    ...fact(say('certificate.label.odometer'), odometer.filter((each) => each !== '').join(', ')),
    ...fact(sayKey('field.intake.order'), fieldText(input, 'intake.order')),
    ...fact(sayKey('field.intake.owner'), fieldText(input, 'intake.owner')),
    ...fact(say('certificate.label.why'), fieldText(input, 'intake.reasons')),
    ...fact(say('certificate.label.procedure'), procedureText(input)),
    ...fact(say('certificate.label.who'), performers(input)),
    ...fact(say('certificate.label.where'), fieldText(input, 'intake.placeOfWork')),
    ...fact(
      say('certificate.label.when'),
      say('certificate.fromTo', {
        from: opened,
        to: localMinute(seal.issuedAtUtcMs, seal.issuedOffsetMin),
        zone: offsetText(seal.issuedOffsetMin),
      }),
    ),
    ...fact(say('certificate.label.notDone'), notDoneText(input)),
    ...fact(sayKey('field.outcome.stateAtHandover'), fieldText(input, 'outcome.stateAtHandover')),
    ...fact(say('certificate.label.toldTo'), fieldText(input, 'outcome.whoWasTold')),
  ];
}

function performers(input: CertificateInput): string {
  const ids = new Set([input.job.opened.person, ...input.job.readings.map((each) => each.stamp.person)]);
  return [...ids]
    .map((id) => {
      const person = input.shop.people.find((each) => each.id === id);
      return person === undefined ? id : `${person.name}, ${person.qualification}`;
    })
    .join('\n');
}

/** The blocks under the answer. */
export function firstPageBlocks(input: CertificateInput): readonly DocumentBlock[] {
  const notice = (heading: string, text: string): DocumentBlock => ({ block: 'notice', heading, text });
  const demo: readonly DocumentBlock[] = [
    ...(input.job.rehearsal
      ? [notice(say('certificate.rehearsal.heading'), say('certificate.rehearsal'))]
      : []),
    ...(input.job.demo ? [notice(say('certificate.demo.heading'), say('certificate.demo'))] : []),
  ];
  const rule: DocumentBlock = {
    block: 'facts',
    columns: 1,
    facts: [
      { label: say('certificate.label.rule'), value: say(`certificate.rule.${input.job.decisionRule}`) },
    ],
  };
  return [...demo, { block: 'facts', columns: 2, facts: facts(input) }, rule];
}

/** All recorded fields of every stage that print in `section`, as label and value rows. */
export function recordedFacts(
  input: CertificateInput,
  section: 'work' | 'vehicle' | 'prechecks' | 'conditions' | 'outcome' | 'handover',
): readonly Fact[] {
  const recorded = stages.flatMap((stage) =>
    stage.fields
      .filter((field) => field.printed === section)
      .flatMap((field) => fieldFacts(input, field.id, field.label)),
  );
  return section === 'conditions' ? [...floorFacts(input), ...recorded] : recorded;
}

/** Where the heights of the floor come from, where that was chosen. */
function floorFacts({ job }: CertificateInput): readonly Fact[] {
  if (job.floor === undefined) return [];
  const survey = job.floor.way === 'survey' ? job.floor.room?.survey : undefined;
  const by =
    survey == null
      ? ''
      : `. ${say('bay.survey.by', {
          person: survey.person,
          madeOn: survey.madeOn,
          instrument: survey.instrument,
        })}`;
  return [{ label: say('bay.floor.way'), value: `${say(`bay.floor.${job.floor.way}`)}${by}` }];
}

function fieldFacts(input: CertificateInput, fieldId: string, labelKey: string): readonly Fact[] {
  return Object.values(input.job.fields)
    .filter((recorded) => recorded.field === fieldId)
    .map((recorded) => ({
      label: placeLabel(input, labelKey, recorded.at),
      value: fieldText(input, fieldId, recorded.at),
    }))
    .filter((fact) => fact.value !== '');
}

function placeLabel(
  input: CertificateInput,
  labelKey: string,
  at: { readonly sensor: string | null; readonly station: string | null; readonly item: string | null },
): string {
  const sensor = input.job.sensors.find((each) => each.sensor === at.sensor);
  if (sensor === undefined) {
    const piece = usedPieces(input.job).find((each) => each.id === at.item);
    return piece === undefined ? sayKey(labelKey) : say('bay.due.reasonFor', { piece: piece.name });
  }
  const procedure = sensor.procedure;
  if (at.item !== null) {
    const condition = procedure?.conditions.find((each) => each.id === at.item);
    return condition?.text ?? procedure?.inputs.find((each) => each.name === at.item)?.label ?? at.item;
  }
  const station = procedure?.stations.find((each) => each.id === at.station);
  const place = station === undefined ? sensor.name : `${sensor.name}, ${station.name}`;
  return `${sayKey(labelKey)} (${place})`;
}

/** Who signed and by what, for the signature block. */
export function signerFacts(input: CertificateInput): readonly Fact[] {
  const signer = input.shop.people.find((each) => each.id === input.seal.signer);
  return [
    { label: say('certificate.label.signer'), value: personName(input, input.seal.signer) },
    ...(signer === undefined || signer.qualification === ''
      ? []
      : [{ label: say('certificate.label.qualification'), value: signer.qualification }]),
    { label: say('certificate.label.signature'), value: say('certificate.signature.kind') },
    { label: say('certificate.label.fingerprint'), value: groupDigest(input.rootFingerprint) },
  ];
}
