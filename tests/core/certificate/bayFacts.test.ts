/** What a certificate says of the bay beside the table's own rows: where heights come from, which piece was overdue. */
import { describe, expect, test } from 'vitest';
import { recordedFacts } from '../../../core/certificate/firstPage.ts';
import type { CertificateInput } from '../../../core/certificate/input.ts';
import { assess } from '../../../core/job/assess.ts';
import { wholeJob } from '../../../core/job/fieldKey.ts';
import type { Job } from '../../../core/job/job.ts';
import { readScript } from '../../../electron/cli/playScript.ts';
import { demoShop } from '../../../electron/service/handlers/shop.ts';
import { foldScript } from '../../demo/foldScript.ts';
import { roomOf, surveyOf } from '../job/surveyedRoom.ts';

const shop = demoShop();
const script = readScript(new URL('../../../assets/demo/demo-job.json', import.meta.url));
const job = foldScript(script, shop);

function factsOf(one: Job): ReturnType<typeof recordedFacts> {
  const certificate = {
    certificate: 'c1',
    number: 'QUAY-2-2026-0001',
    edition: 1,
    replaces: null,
    kind: 'calibrated' as const,
    reason: '',
    recordDigest: '0'.repeat(64),
    head: '0'.repeat(64),
    signer: 'tobias',
    issuedAtUtcMs: Date.UTC(2026, 10, 25, 13),
    issuedOffsetMin: 60,
    paper: 'A4' as const,
    program: 'datumline/test',
    sealed: one.last,
    fileDigest: null,
  };
  const input: CertificateInput = {
    job: one,
    answers: {},
    assessment: assess(one, {}),
    shop,
    personal: {},
    seal: certificate,
    numbers: [],
    recordDigest: '0'.repeat(64),
    rootFingerprint: '',
    attachmentJson: '{}',
  };
  return recordedFacts(input, 'conditions');
}

describe('the conditions on a certificate', () => {
  test('name the survey the heights come from, with who made it and when', () => {
    const room = roomOf(surveyOf(() => 0));
    const floor = { way: 'survey' as const, bay: '2', room, stamp: job.last };
    expect(factsOf({ ...job, floor })[0]?.value).toMatch(
      /survey of this bay\. Read by mira on 2026-10-05 with Laser/,
    );
    expect(factsOf({ ...job, floor: { ...floor, way: 'spot', room: null } })[0]?.value).toBe(
      'read here, away from the shop',
    );
  });

  test('say nothing new of a job in which it was not chosen', () => {
    expect(factsOf(job).map((fact) => fact.label)).not.toContain('Heights of the floor');
  });

  test('name the piece a reason is given for', () => {
    const at = { ...wholeJob, item: 'tape-1' };
    const reason = {
      field: 'bay.overdueReason',
      at,
      value: 'Compared with the rule',
      text: 'Compared with the rule',
      stamp: job.last,
      corrections: 0,
    };
    const facts = factsOf({ ...job, fields: { ...job.fields, 'bay.overdueReason@//tape-1': reason } });
    const printed = facts.find((fact) => fact.value === 'Compared with the rule');
    expect(printed?.label).toMatch(/Steel tape/);
  });
});
