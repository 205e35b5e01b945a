// The printing thread itself: what comes back over it is what the same request prints here.
import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { callOrThrow } from '../../../../electron/cli/playScript.ts';
import { print } from '../../../../electron/service/printing/printer.ts';
import {
  type PrintAnswer,
  type PrintRequest,
  printJob,
} from '../../../../electron/service/printing/printJob.ts';
import { openDemoShop, openService, playDemo, testFolder } from '../handlers/openService.ts';

/** What the service asks to be printed for a draft of the stopped demo job, and what printing it in this thread gives. */
async function printedHere(): Promise<{ readonly request: PrintRequest; readonly here: PrintAnswer }> {
  const printed: { request: PrintRequest; here: PrintAnswer }[] = [];
  const service = await openService(testFolder(), {
    print: async (request) => {
      const here = await printJob(request);
      printed.push({ request, here });
      return here;
    },
  });
  const shop = await openDemoShop(service);
  const { job } = await playDemo(service, shop, 'demo-job-stopped.json', (step) => step.do !== 'sign');
  await callOrThrow(service.dispatch, 'certificate.draft', {
    person: 'tobias',
    job,
    kind: 'notCalibrated',
    reason: 'adhesive',
    language: 'de',
  });
  const [first] = printed;
  if (first === undefined) throw new Error('nothing was printed');
  return first;
}

const digestOf = (answer: PrintAnswer): string =>
  answer.ok ? createHash('sha256').update(answer.value).digest('hex') : answer.error.code;

const settledDigest = (settled: PromiseSettledResult<PrintAnswer>): string =>
  settled.status === 'fulfilled' ? digestOf(settled.value) : String(settled.reason);

describe('the printing thread', () => {
  test('gives the same bytes as printing here, refuses alike, tells a fault, and goes on', async () => {
    const { request, here } = await printedHere();
    expect(request.draft).toBe('ENTWURF');
    expect(here.ok).toBe(true);
    const [broken, strange, whole] = await Promise.allSettled([
      print({ ...request, texts: [] }),
      print({ ...request, seal: { ...request.seal, number: '\u{12000}' } }),
      print(request),
    ]);
    // By digest: a test that prints two whole files to show where they differ helps nobody.
    expect(settledDigest(whole)).toBe(digestOf(here));
    expect(settledDigest(broken)).toContain('opening event');
    expect(settledDigest(strange)).toBe('certificate/glyphMissing');
  }, 90_000);
});
