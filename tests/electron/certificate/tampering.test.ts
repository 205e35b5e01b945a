/** What a file that was changed, cut, added to, or never ours answers: always something, never a crash, never a yes. */
import fc from 'fast-check';
import PDFDocument from 'pdfkit';
import { beforeAll, describe, expect, test } from 'vitest';
import { checkCertificate } from '../../../electron/service/certificate/check/checkCertificate.ts';
import { seededRandom } from './seededRandom.ts';
import { signedSample, testSigner } from './signedSample.ts';
import { runTool, temporaryFile } from './tools.ts';

const files: Record<string, Buffer> = {};

beforeAll(async () => {
  for (const algorithm of ['rsa3072', 'ecdsaP256'] as const) {
    files[algorithm] = Buffer.from(await signedSample(await testSigner(algorithm)));
  }
}, 60_000);

const fileOf = (algorithm: string): Buffer => files[algorithm] ?? expect.fail('no file');
const signatureAnswer = (bytes: Uint8Array) => checkCertificate(bytes).lines[0]?.answer;

/** First byte of the value's text and first after it. */
function holeOf(file: Buffer): readonly [number, number] {
  const start = file.lastIndexOf('/Contents <') + '/Contents '.length;
  return [start, file.indexOf('>', start) + 1];
}

function flipped(file: Buffer, at: number, by: number): Buffer {
  const changed = Buffer.from(file);
  changed[at] = (changed[at] ?? 0) ^ by;
  return changed;
}

/** Offsets of `count` single-byte changes in [from, until) that are not seen. */
function unseen(file: Buffer, from: number, until: number, count: number, seed: number): readonly number[] {
  const random = seededRandom(seed);
  const missed: number[] = [];
  for (let round = 0; round < count; round++) {
    const at = from + random(until - from);
    const by = round % 2 === 0 ? 1 << random(8) : 1 + random(255);
    if (signatureAnswer(flipped(file, at, by)) !== 'no') missed.push(at);
  }
  return missed;
}

describe.each(['rsa3072', 'ecdsaP256'])('every byte counts, %s', (algorithm) => {
  test('the file as it was signed is intact', () => {
    expect(signatureAnswer(fileOf(algorithm))).toBe('yes');
  });

  test('300 single-byte changes anywhere are seen (seed 20260305)', () => {
    const file = fileOf(algorithm);
    expect(unseen(file, 0, file.length, 300, 20_260_305)).toEqual([]);
  }, 60_000);

  test('300 single-byte changes in the signature value are seen (seed 7)', () => {
    const file = fileOf(algorithm);
    const [start] = holeOf(file);
    // The value is one DER sequence: tag, 82, two bytes of length.
    expect(file.toString('latin1', start, start + 5)).toBe('<3082');
    const length = Number.parseInt(file.toString('latin1', start + 5, start + 9), 16) + 4;
    expect(unseen(file, start, start + 1 + 2 * length, 300, 7)).toEqual([]);
  }, 60_000);

  test('50 changes in the padding of the hole are seen (seed 11)', () => {
    const file = fileOf(algorithm);
    const [, end] = holeOf(file);
    expect(unseen(file, end - 20_000, end, 50, 11)).toEqual([]);
  });

  test('a digit of the value in capitals is seen: it is written in one way only', () => {
    const file = fileOf(algorithm);
    const [start, end] = holeOf(file);
    const at = file.toString('latin1', start, end).search(/[a-f]/) + start;
    expect(signatureAnswer(flipped(file, at, 0x20))).toBe('no');
  });
});

describe('bytes after the end', () => {
  /** An update that replaces the first page's content, as any PDF editor may append it. */
  function update(file: Buffer): Buffer {
    const text = file.toString('latin1');
    const page = /\/Type \/Page\n[\s\S]{0,300}?\/Contents (\d+) 0 R/.exec(text);
    const content = Number(page?.[1] ?? expect.fail('no page'));
    const start = text
      .slice(text.lastIndexOf('startxref') + 9)
      .trim()
      .split('\n')[0];
    const root = /\/Root (\d+ 0 R)/.exec(text)?.[1];
    const size = /\/Size (\d+)/.exec(text)?.[1];
    const body = `${content} 0 obj\n<<\n/Length 0\n>>\nstream\n\nendstream\nendobj\n`;
    const table = `xref\n${content} 1\n${String(file.length).padStart(10, '0')} 00000 n \n`;
    const trailer = `trailer\n<<\n/Size ${size}\n/Root ${root}\n/Prev ${start}\n>>\nstartxref\n${file.length + body.length}\n%%EOF\n`;
    return Buffer.concat([file, Buffer.from(body + table + trailer, 'latin1')]);
  }

  test('an appended update is seen, where a common tool still says the signature is valid', () => {
    const attacked = update(fileOf('ecdsaP256'));
    const path = temporaryFile('attacked.pdf', attacked);
    expect(runTool('pdfsig', '-nocert', path).stdout).toContain('Signature is Valid.');
    const report = checkCertificate(attacked);
    expect(report.exitCode).toBe(1);
    expect(report.lines[1]).toMatchObject({
      id: 'nothingAppended',
      answer: 'no',
      text: 'check.appended.bytes',
    });
    expect(report.lines[1]?.values.count).toBe(String(attacked.length - fileOf('ecdsaP256').length));
    expect(report.lines.slice(3).every((line) => line.answer === 'unknown')).toBe(true);
  });

  test.each([
    ['a line end', '\n'],
    ['a blank', ' '],
    ['a kilobyte', 'x'.repeat(1024)],
    ['a second end', '%%EOF\n'],
  ])('%s is seen', (_name, tail) => {
    const report = checkCertificate(Buffer.concat([fileOf('rsa3072'), Buffer.from(tail)]));
    expect(report.lines[1]).toMatchObject({ answer: 'no', values: { count: String(tail.length) } });
    expect(report.exitCode).toBe(1);
  });
});

describe('files that are cut or foreign', () => {
  test('a cut anywhere is seen and said', () => {
    const file = fileOf('rsa3072');
    for (let part = 0; part < 60; part++) {
      const report = checkCertificate(file.subarray(0, Math.floor((file.length * part) / 60)));
      expect(report.lines[0]).toMatchObject({
        answer: 'no',
        text: part === 0 ? 'check.file.notPdf' : 'check.file.truncated',
      });
      expect(report.exitCode).toBe(1);
    }
  });

  test('the last bytes gone one by one: only the final line end may miss without the file losing its end', () => {
    const file = fileOf('rsa3072');
    for (let gone = 1; gone < 40; gone++) {
      expect(signatureAnswer(file.subarray(0, file.length - gone))).toBe('no');
    }
  });

  test('saved again by another program', () => {
    const path = temporaryFile('signed.pdf', fileOf('rsa3072'));
    for (const option of ['--object-streams=generate', '--linearize', '--qdf']) {
      const again = temporaryFile('again.pdf', new Uint8Array(0));
      expect(runTool('qpdf', option, path, again).status).toBe(0);
      const bytes = runTool('cat', again).stdout;
      const report = checkCertificate(Buffer.from(bytes, 'latin1'));
      expect(report.lines[0]?.answer).toBe('no');
      expect(report.exitCode).toBe(1);
    }
  });

  test('a PDF without a signature', async () => {
    const doc = new PDFDocument();
    const chunks: Buffer[] = [];
    doc.on('data', (chunk: Buffer) => chunks.push(chunk));
    await new Promise((resolve) => {
      doc.on('end', resolve);
      doc.text('hello').end();
    });
    expect(checkCertificate(Buffer.concat(chunks)).lines[0]).toMatchObject({
      answer: 'no',
      text: 'check.signature.none',
    });
  });

  test.each([
    ['nothing', ''],
    ['text', 'hello'],
    ['a header', '%PDF-1.7\n'],
    ['an end without a table', '%PDF-1.7\nstartxref\n0\n%%EOF\n'],
    [
      'a table that is its own predecessor',
      `%PDF-1.7\nxref\n0 0\ntrailer\n<<\n/Prev 9\n>>\nstartxref\n9\n%%EOF\n`,
    ],
    ['a table of a billion objects', '%PDF-1.7\nxref\n0 999999999\ntrailer\n<<\n>>\nstartxref\n9\n%%EOF\n'],
    ['nesting without end', `%PDF-1.7\nxref\n0 0\ntrailer\n${'['.repeat(100_000)}\nstartxref\n9\n%%EOF\n`],
    ['a table behind the end', '%PDF-1.7\nstartxref\n999999999999\n%%EOF\n'],
    [
      'an object behind the end',
      '%PDF-1.7\nxref\n1 1\n9999999999 00000 n \ntrailer\n<<\n/Root 1 0 R\n>>\nstartxref\n9\n%%EOF\n',
    ],
    [
      'a catalog that is itself',
      '%PDF-1.7\nxref\n1 1\n0000000000 00000 n \ntrailer\n<<\n/Root 1 0 R\n>>\nstartxref\n9\n%%EOF\n',
    ],
  ])('%s', (_name, text) => {
    const report = checkCertificate(Buffer.from(text, 'latin1'));
    expect(report.exitCode).toBe(1);
    expect(report.lines).toHaveLength(8);
  });

  test('random bytes and random damage never crash it (100 runs each, seed 42)', () => {
    const base = fileOf('ecdsaP256');
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 2000 }), (bytes) => {
        expect(checkCertificate(bytes).exitCode).toBe(1);
        const behindHeader = Buffer.concat([
          Buffer.from('%PDF-1.7\n'),
          bytes,
          Buffer.from('\nstartxref\n9\n%%EOF\n'),
        ]);
        expect(checkCertificate(behindHeader).exitCode).toBe(1);
      }),
      { seed: 42, numRuns: 100 },
    );
    const damage = fc.array(
      fc.tuple(fc.nat(base.length - 1), fc.uint8Array({ minLength: 1, maxLength: 40 })),
      {
        minLength: 1,
        maxLength: 5,
      },
    );
    fc.assert(
      fc.property(damage, (patches) => {
        const damaged = Buffer.from(base);
        for (const [at, bytes] of patches) damaged.set(bytes.subarray(0, base.length - at), at);
        fc.pre(Buffer.compare(damaged, base) !== 0);
        expect(checkCertificate(damaged).exitCode).toBe(1);
      }),
      { seed: 42, numRuns: 100 },
    );
  });
});
