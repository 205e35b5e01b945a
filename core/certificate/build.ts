/** The whole printable certificate of a sealed job, worded and rounded: a pure function of its input. */
import type { JobSensor } from '../job/job.ts';
import { localMinute, offsetText, utcSecond } from '../job/localTime.ts';
import type { StationFinding } from '../placement/finding.ts';
import { inLanguage, LANGUAGE_TAGS, say, spokenLanguage } from '../words/index.ts';
import { certificateQrText } from './attachment.ts';
import { coordinateRow, radialRow } from './coordinateText.ts';
import type { CertificateDocument, DocumentBlock, DocumentSection, VerdictsBlock } from './document.ts';
import { drawingSection } from './drawings.ts';
import {
  checksSection,
  closingSections,
  datumSection,
  equipmentSection,
  fieldsSection,
  precheckConclusions,
  readingsSection,
  timelineSection,
} from './evidence.ts';
import { answerOf, firstPageBlocks, signerFacts } from './firstPage.ts';
import { amountText, type CertificateInput, personName } from './input.ts';
import { pageWords } from './pageWords.ts';
import { photosSection, reportFacts } from './photos.ts';

const verdictHeadings = (): VerdictsBlock['headings'] => ({
  coordinate: say('certificate.heading.coordinate'),
  required: say('certificate.heading.required'),
  found: say('certificate.heading.found'),
  deviation: say('certificate.heading.deviation'),
  expandedUncertainty: say('certificate.heading.U'),
  coverageFactor: say('certificate.heading.k'),
  tolerance: say('certificate.heading.tolerance'),
  verdict: say('certificate.heading.verdict'),
});

function stationBlocks(
  input: CertificateInput,
  sensor: JobSensor,
  station: StationFinding,
  isLast: boolean,
): readonly DocumentBlock[] {
  const required = sensor.procedure?.stations.find((each) => each.id === station.station);
  const circle = station.radial;
  const coordinates = station.coordinates.map((finding) =>
    coordinateRow(input, sensor.sensor, station, required?.place ?? 'ahead', finding),
  );
  const rows =
    circle === undefined ? coordinates : [...coordinates, radialRow(input, sensor.sensor, station, circle)];
  const slide: readonly DocumentBlock[] =
    station.slide === undefined
      ? []
      : [
          {
            block: 'text',
            emphasis: 'quiet',
            text: say('certificate.slide', {
              amount: amountText(input, `${sensor.sensor}.${station.station}.slide`),
              side: say(`side.${station.slide.side}`),
            }),
          },
        ];
  return [
    {
      block: 'verdicts',
      caption: say('certificate.verdicts.caption', { station: required?.name ?? station.station }),
      headings: verdictHeadings(),
      rows,
      ...(isLast ? { note: say('certificate.verdicts.note') } : {}),
    },
    ...slide,
  ];
}

function placementSections(input: CertificateInput, sensor: JobSensor): readonly DocumentSection[] {
  const answer = input.answers[sensor.sensor];
  if (answer === undefined) return [];
  const found = answer.stations.filter((each) => each.basis === 'found');
  const placement: readonly DocumentSection[] =
    found.length === 0
      ? []
      : [
          {
            heading: say('certificate.section.placement', { sensor: sensor.name }),
            blocks: found.flatMap((each, i) => stationBlocks(input, sensor, each, i === found.length - 1)),
          },
        ];
  return [...placement, ...drawingSection(input, sensor, answer), ...datumSection(input, sensor, answer)];
}

function sections(input: CertificateInput): readonly DocumentSection[] {
  return [
    ...input.job.sensors.flatMap((sensor) => placementSections(input, sensor)),
    ...fieldsSection(input, say('certificate.section.work'), 'work'),
    ...checksSection(input, say('certificate.section.prechecks'), 'prechecks', precheckConclusions(input)),
    ...checksSection(input, say('certificate.section.conditions'), 'conditions'),
    ...equipmentSection(input),
    ...checksSection(input, say('certificate.section.outcome'), 'outcome', reportFacts(input)),
    ...fieldsSection(input, say('certificate.section.handover'), 'handover'),
    ...photosSection(input),
    ...readingsSection(input),
    timelineSection(input),
    ...closingSections(),
  ];
}

/**
 * Builds the document in the language it was sealed in, whatever is spoken around it. Everything printed is in `input`;
 * nothing is asked of a clock. A seal from before there was a choice names no language and is English.
 */
export function buildCertificate(input: CertificateInput): CertificateDocument {
  return inLanguage(input.seal.language ?? 'en', () => build(input));
}

function build(input: CertificateInput): CertificateDocument {
  const { seal, shop, job } = input;
  const bay = shop.bays.find((each) => each.code === job.bay);
  const replaces =
    seal.replaces === null
      ? {}
      : {
          replaces: {
            number: seal.number,
            edition: seal.edition - 1,
            words: say('certificate.replaces', { number: seal.number, edition: String(seal.edition - 1) }),
            reason: seal.reason,
          },
        };
  return {
    number: seal.number,
    edition: seal.edition,
    ...replaces,
    kind: seal.kind,
    title: say(seal.kind === 'notCalibrated' ? 'certificate.title.notCalibrated' : 'certificate.title'),
    answer: answerOf(input),
    paper: seal.paper,
    lang: LANGUAGE_TAGS[spokenLanguage()],
    shopName: shop.name,
    shopLines: [...shop.address, shop.contact, ...(bay === undefined ? [] : [bay.name])].filter(
      (each) => each !== '',
    ),
    firstPage: firstPageBlocks(input),
    sections: sections(input),
    limitSentence: say('certificate.limit'),
    issuedAt: utcSecond(seal.issuedAtUtcMs),
    issuedAtText: `${localMinute(seal.issuedAtUtcMs, seal.issuedOffsetMin)} (${offsetText(seal.issuedOffsetMin)})`,
    signerText: say('certificate.signedBy', { name: personName(input, seal.signer) }),
    signerFacts: signerFacts(input),
    recordDigest: input.recordDigest,
    qrText: certificateQrText(seal.number, seal.edition, input.recordDigest),
    attachment: {
      name: 'certificate-record.json',
      description: say('certificate.attachment'),
      json: input.attachmentJson,
    },
    words: pageWords(),
  };
}
