/** The photos of a job on paper: what each shows, where and when it was taken, and its digest. */
import { standingPhotos, standingReport } from '../job/job.ts';
import { stageById } from '../job/stages/index.ts';
import { say } from '../words/index.ts';
import type { DocumentSection, Fact } from './document.ts';
import { groupDigest } from './groupDigest.ts';
import { type CertificateInput, momentText, sayKey } from './input.ts';

/** A section with the photos that stand; absent where there is none. */
export function photosSection(input: CertificateInput): readonly DocumentSection[] {
  const pictures = standingPhotos(input.job).map((photo) => {
    const caption = input.personal[photo.shows.personalId] ?? say('certificate.erased');
    const stage = sayKey(stageById(photo.stage).title);
    const sensor = input.job.sensors.find((each) => each.sensor === photo.sensor)?.name;
    return {
      digest: photo.digest,
      widthPx: photo.widthPx,
      heightPx: photo.heightPx,
      altText: say('certificate.photo.alt', { shows: caption, stage }),
      caption,
      facts: [
        [stage, ...(sensor === undefined ? [] : [sensor]), momentText(photo.stamp)].join(', '),
        say('certificate.digest', { digest: groupDigest(photo.digest) }),
      ],
    };
  });
  return pictures.length === 0
    ? []
    : [{ heading: say('certificate.section.photos'), blocks: [{ block: 'pictures', pictures }] }];
}

/** The scan tools' own reports: tool, software and digest of the file kept beside this document. */
export function reportFacts(input: CertificateInput): readonly Fact[] {
  return input.job.sensors.flatMap((sensor) => {
    const report = standingReport(input.job, sensor.sensor);
    if (report === undefined) return [];
    const { tool, software } = report;
    const digest = say('certificate.digest', { digest: groupDigest(report.digest) });
    return [
      {
        label: say('certificate.report', { sensor: sensor.name }),
        value: `${say('certificate.report.tool', { tool, software })}\n${digest}`,
      },
    ];
  });
}
