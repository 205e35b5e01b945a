/** An invented certificate with every kind of block, for the renderer's, the signer's and the check's tests. */

import { asJson, canonicalJson, sha256Hex } from '../../../core/canonical.ts';
import {
  attachmentFormat,
  attachmentSchemaVersion,
  type CertificateAttachment,
  certificateQrText,
  type PrintedNumber,
} from '../../../core/certificate/attachment.ts';
import type {
  CertificateDocument,
  CertificateKind,
  DocumentBlock,
  DocumentSection,
  VerdictHeadings,
  VerdictRow,
} from '../../../core/certificate/document.ts';
import { pageWords } from '../../../core/certificate/pageWords.ts';
import { invariant } from '../../../core/result.ts';
import { sampleEvents, samplePersonal } from './sampleEvents.ts';
import { PHOTO_HEIGHT_PX, PHOTO_WIDTH_PX } from './samplePhoto.ts';
import { sampleScene } from './sampleScene.ts';

const headings: VerdictHeadings = {
  coordinate: 'Coordinate',
  required: 'Required',
  found: 'Found',
  deviation: 'Deviation',
  expandedUncertainty: 'U',
  coverageFactor: 'k',
  tolerance: 'Tolerance',
  verdict: 'Verdict',
};

const verdictRows: readonly VerdictRow[] = [
  {
    label: 'Ahead of the front axle',
    required: '1500.0 mm',
    found: '1504.1 mm',
    deviation: '4.1 mm too far from the car',
    expandedUncertainty: '2.3 mm',
    coverageFactor: '2.00',
    tolerance: '± 5 mm',
    verdict: 'notProven',
    verdictText: 'within, margin smaller than the uncertainty',
    probability: '78.3 % probability of conformity',
    consequence: 'At the sensor: no change of direction.',
    bar: {
      lower: -5,
      upper: 5,
      found: 4.1,
      boxHalfWidth: 1.9,
      whiskerHalfWidth: 2.3,
      lowerText: '5 mm nearer',
      upperText: '5 mm farther',
    },
  },
  {
    label: 'Side',
    required: '0.0 mm',
    found: '1.2 mm',
    deviation: "1.2 mm to the car's left",
    expandedUncertainty: '3.4 mm',
    coverageFactor: '2.02',
    tolerance: '± 10 mm',
    verdict: 'proven',
    verdictText: 'proven',
    probability: '99.9 % probability of conformity',
    consequence: 'At the sensor 0.01 degrees; 14 mm sideways at 50 m.',
    bar: {
      lower: -10,
      upper: 10,
      found: -1.2,
      boxHalfWidth: 2.8,
      whiskerHalfWidth: 3.4,
      lowerText: "10 mm car's left",
      upperText: "10 mm car's right",
    },
  },
  {
    label: 'Height of the target centre',
    required: '1350.0 mm',
    found: '1351.6 mm',
    deviation: '1.6 mm too high',
    expandedUncertainty: '1.8 mm',
    coverageFactor: '2.00',
    tolerance: '± 5 mm',
    verdict: 'proven',
    verdictText: 'proven',
    probability: '99.9 % probability of conformity',
    bar: {
      lower: -5,
      upper: 5,
      found: 1.6,
      boxHalfWidth: 1.5,
      whiskerHalfWidth: 1.8,
      lowerText: '5 mm lower',
      upperText: '5 mm higher',
    },
  },
  {
    label: 'Squareness',
    required: '0.00°',
    found: '0.93°',
    deviation: "0.93° turned, car's-left end away from the car",
    expandedUncertainty: '0.11°',
    coverageFactor: '2.03',
    tolerance: '± 0.25°',
    verdict: 'outside',
    verdictText: 'outside',
    probability: 'under 0.1 % probability of conformity',
    consequence: 'At the sensor 0.93 degrees; 812 mm sideways at 50 m.',
    bar: {
      lower: -0.25,
      upper: 0.25,
      found: 0.93,
      boxHalfWidth: 0.09,
      whiskerHalfWidth: 0.11,
      lowerText: '0.25° toward',
      upperText: '0.25° away',
    },
  },
];

export const sampleNumbers: readonly PrintedNumber[] = [
  { id: 'camera.centre.ahead.found', value: '1504.1', unit: 'mm', decimals: 1 },
  { id: 'camera.centre.ahead.U', value: '2.3', unit: 'mm', decimals: 1 },
  { id: 'camera.centre.yaw.found', value: '0.93', unit: 'deg', decimals: 2 },
];

const firstPage: readonly DocumentBlock[] = [
  {
    block: 'facts',
    facts: [
      { label: 'Vehicle', value: 'Kestrel Tern 1.6, 2024', emphasis: 'strong' },
      { label: 'VIN', value: '1M8GDM9AXKP042788' },
      { label: 'Plate', value: 'HB 1204' },
      { label: 'Order', value: '26-0318' },
      { label: 'Why', value: 'Windscreen replaced on 4 March 2026' },
      { label: 'Required by', value: 'Kestrel workshop manual 8.4, section 31, read 2 March 2026' },
      { label: 'Where', value: 'Bay 2, Quayside Body & Glass' },
      { label: 'Done on', value: '5 March 2026, 13:10 to 14:05' },
      { label: 'Done by', value: 'Ida Strand, calibration technician' },
      { label: 'Odometer in', value: '48 213 km' },
      { label: 'Odometer out', value: '48 214 km' },
      { label: 'Owner', value: 'Mara Lindqvist' },
    ],
  },
  {
    block: 'text',
    text:
      'Decision rule: a coordinate is proven when the deviation and 1.645 standard uncertainties together stay within ' +
      'the tolerance, which is at least 95 % probability of conformity at the nearer limit.',
    emphasis: 'quiet',
  },
  {
    block: 'notice',
    heading: 'Not done here',
    text: 'The front radar needs a road routine. The owner was told by telephone on 5 March 2026.',
  },
];

function evidence(rows: number): readonly DocumentSection[] {
  return [
    {
      heading: 'Placement, forward camera, station at the centre',
      blocks: [
        {
          block: 'verdicts',
          headings,
          rows: verdictRows,
          note: 'Box: the guard of the decision rule. Whiskers: U.',
        },
        {
          block: 'scene',
          scene: sampleScene,
          altText: 'Plan view: the fixture stands 4.1 mm too far ahead, turned by 0.93 degrees.',
          caption: 'Plan view, fixture as found. Scale as drawn.',
          heightMm: 80,
        },
      ],
    },
    {
      heading: 'Readings',
      blocks: [
        {
          block: 'table',
          caption: 'All readings in the order they were taken',
          rowHeadings: true,
          columns: [
            { heading: 'No.', align: 'right', share: 6 },
            { heading: 'Reading', align: 'left', share: 34 },
            { heading: 'Value', align: 'right', share: 16 },
            { heading: 'u', align: 'right', share: 12 },
            { heading: 'Instrument', align: 'left', share: 18 },
            { heading: 'Remark', align: 'left', share: 24 },
          ],
          rows: Array.from({ length: rows }, (_, index) => [
            String(index + 1),
            index % 3 === 0
              ? 'Diagonal, front point left to bar end 2'
              : "Drop of the car's-left rear hub, along",
            { text: `${(2914.5 + index).toFixed(1)} mm`, emphasis: index % 7 === 3 ? 'struck' : 'plain' },
            '0.6 mm',
            { text: 'tape T-04', emphasis: 'quiet' },
            index % 7 === 3 ? 'withdrawn: read at the wrong mark, read again as the next number' : '',
          ]),
        },
      ],
    },
    {
      heading: 'How to check this certificate without our software',
      blocks: [
        {
          block: 'list',
          ordered: true,
          items: [
            'Open it in a PDF reader that checks signatures and compare the fingerprint with the one the shop gives.',
            'Save the attached record and compute SHA-256 over its member "record" in canonical form (RFC 8785).',
          ],
        },
        { block: 'list', items: ['Moving equipment, lasers and vehicles on lifts can injure.'] },
        { block: 'text', text: 'Abbreviations: µ°±²³ΩΔ≤≥≠≈√∑∞−×·→χνσληθ–—“”‰€₂⁻¹⊕', emphasis: 'quiet' },
      ],
    },
  ];
}

const answers: Readonly<Record<CertificateKind, CertificateDocument['answer']>> = {
  calibrated: {
    words: 'Calibration carried out',
    sentence:
      'The forward camera was calibrated by the maker’s static procedure; the placement of its target is shown.',
    sensors: [
      { name: 'Forward camera', outcome: 'calibrated here, routine passed', verdict: 'proven' },
      { name: 'Front radar', outcome: 'needs a road routine, not done here', verdict: 'outside' },
    ],
  },
  routineCompletedPlacementNotShown: {
    words: 'Routine completed, placement not shown',
    sentence:
      'The scan tool reports a pass. With these instruments nobody can say whether the target stood in tolerance.',
    sensors: [
      { name: 'Forward camera', outcome: 'routine passed, placement not shown', verdict: 'notProven' },
    ],
  },
  notCalibrated: {
    words: 'Not calibrated',
    sentence:
      'The routine was stopped: the windscreen bracket is bent. The assistance system is switched off.',
    sensors: [{ name: 'Forward camera', outcome: 'not calibrated, code C1A20 stored', verdict: 'outside' }],
  },
};

export interface SampleOptions {
  readonly kind?: CertificateKind;
  readonly paper?: CertificateDocument['paper'];
  readonly readings?: number;
  readonly edition?: number;
  readonly schema?: number;
  readonly events?: readonly string[];
  readonly shopName?: string;
  readonly disclosures?: CertificateAttachment['disclosures'];
  readonly firstPage?: readonly DocumentBlock[];
  readonly sections?: readonly DocumentSection[];
  /** So many photos in a section of their own, at the end. */
  readonly photos?: number;
  readonly draft?: string;
}

/** Photos, every second one turned upright. */
function photoSections(count: number): readonly DocumentSection[] {
  const pictures = Array.from({ length: count }, (_, i) => {
    const sides = i % 2 === 0 ? [PHOTO_WIDTH_PX, PHOTO_HEIGHT_PX] : [PHOTO_HEIGHT_PX, PHOTO_WIDTH_PX];
    const caption = `Bracket at the mirror, place ${i + 1}, seen from the seat beside the driver with the cover off`;
    return {
      digest: String(i).padStart(64, '0'),
      widthPx: sides[0] ?? 0,
      heightPx: sides[1] ?? 0,
      altText: `Photo at pre-checks: ${caption}`,
      caption,
      facts: ['Pre-checks, 2026-03-05 13:40', `SHA-256 ${'01234567 '.repeat(8).trim()}`],
    };
  });
  return count === 0 ? [] : [{ heading: 'Photos', blocks: [{ block: 'pictures', pictures }] }];
}

/** The sample's attachment, with its record digest. */
export function sampleAttachment(options: SampleOptions = {}): {
  readonly json: string;
  readonly digest: string;
} {
  const { edition = 1, kind = 'calibrated', events = sampleEvents() } = options;
  const record: CertificateAttachment['record'] = {
    number: 'HARBOUR-2-2026-0007',
    edition,
    kind,
    issuedAt: '2026-03-05T14:07:09Z',
    numbers: [...sampleNumbers],
    events: [...events],
  };
  const { schema = attachmentSchemaVersion, disclosures = [samplePersonal] } = options;
  const json = asJson({ format: attachmentFormat, schema, record, disclosures: [...disclosures] });
  const recordJson = asJson(record);
  invariant(json.ok && recordJson.ok, 'the sample is JSON');
  return { json: canonicalJson(json.value), digest: sha256Hex(canonicalJson(recordJson.value)) };
}

export function sampleDocument(options: SampleOptions = {}): CertificateDocument {
  const { kind = 'calibrated', edition = 1, paper = 'A4', readings = 24 } = options;
  const { json, digest } = sampleAttachment(options);
  const number = 'HARBOUR-2-2026-0007';
  const replaces = {
    number,
    edition: edition - 1,
    words: `This edition replaces edition ${edition - 1} of ${number}, which no longer holds.`,
    reason: 'The plate was written wrongly. No measured value has changed.',
  };
  return {
    number,
    edition,
    ...(edition > 1 ? { replaces } : {}),
    kind,
    title: 'Certificate of a static sensor calibration',
    answer: answers[kind],
    paper,
    lang: 'en-GB',
    shopName: options.shopName ?? 'Quayside Body & Glass',
    shopLines: ['Slipway 4, Port Harrow', 'telephone 555 0142, office@quayside.example'],
    firstPage: options.firstPage ?? firstPage,
    sections: [...(options.sections ?? evidence(readings)), ...photoSections(options.photos ?? 0)],
    limitSentence:
      "It shows that the maker's procedure was followed on that day. It is no promise of how the system acts on the road, " +
      'and it is void after later work on body, glass, wheels or suspension. Results relate only to the vehicle named here.',
    issuedAt: '2026-03-05T14:07:09Z',
    issuedAtText: 'issued 5 March 2026, 14:07 (UTC)',
    signerText: 'Signed for Quayside Body & Glass by Jonas Vik, authorised signer',
    signerFacts: [
      { label: 'Signed by', value: 'Jonas Vik, authorised signer' },
      { label: 'Certificate of', value: 'Quayside Body & Glass, bay 2' },
    ],
    recordDigest: digest,
    qrText: certificateQrText(number, edition, digest),
    attachment: { name: 'certificate-record.json', description: 'Record of the job', json },
    words: pageWords(),
    ...(options.draft === undefined ? {} : { draft: options.draft }),
  };
}
