import { execFileSync } from 'node:child_process';
import { X509Certificate } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { signPdf } from '../../../electron/service/certificate/sign/signPdf.ts';
import { sampleDocument } from './sampleDocument.ts';
import { render, signedSample, type TestSigner, testSigner } from './signedSample.ts';
import { runTool, temporaryFile, temporaryFolder } from './tools.ts';

const signers: Record<string, TestSigner> = {};
const files: Record<string, Uint8Array> = {};
let unsigned: Uint8Array;

beforeAll(async () => {
  unsigned = await render(sampleDocument());
  for (const algorithm of ['rsa3072', 'ecdsaP256'] as const) {
    const signer = await testSigner(algorithm);
    signers[algorithm] = signer;
    files[algorithm] = await signedSample(signer);
  }
}, 60_000);

const signerOf = (algorithm: string): TestSigner => signers[algorithm] ?? expect.fail('no signer');
const fileOf = (algorithm: string): Buffer => Buffer.from(files[algorithm] ?? expect.fail('no file'));

/** The ranges as a foreign reader finds them: by the text in the file. */
function rangesOf(file: Buffer): readonly [number, number, number] {
  const found = /\/ByteRange \[0 (\d+) (\d+) (\d+) *\]/.exec(file.toString('latin1'));
  if (found === null) return expect.fail('no ByteRange');
  return [Number(found[1]), Number(found[2]), Number(found[3])];
}

function pem(certificate: Uint8Array): string {
  return new X509Certificate(certificate).toString();
}

describe.each(['rsa3072', 'ecdsaP256'])('a certificate signed with %s', (algorithm) => {
  test('satisfies pdfsig, and is trusted once the shop root is', () => {
    const path = temporaryFile('signed.pdf', fileOf(algorithm));
    const folder = temporaryFolder();
    const rootFile = join(folder, 'root.pem');
    writeFileSync(rootFile, pem(signerOf(algorithm).chain[1] ?? expect.fail('no root')));
    const database = `sql:${folder}`;
    expect(runTool('certutil', '-N', '-d', database, '--empty-password').status).toBe(0);
    expect(
      runTool('certutil', '-A', '-d', database, '-n', 'shop', '-t', 'C,C,C', '-i', rootFile).status,
    ).toBe(0);
    const { stdout } = runTool('pdfsig', '-nssdir', database, path);
    expect(stdout).toContain('Signature Validation: Signature is Valid.');
    expect(stdout).toContain('Certificate Validation: Certificate is Trusted.');
    expect(stdout).toContain('Signature Type: ETSI.CAdES.detached');
    expect(stdout).toContain('Signing Hash Algorithm: SHA-256');
    expect(stdout).toContain('Total document signed');
    expect(stdout).toContain('Signing Time: Mar 05 2026 14:09:30');
  });

  // Only openssl checks the signing-certificate attribute PAdES asks for (ETSI EN 319 142-1 clause 6.3).
  test('satisfies openssl cms -verify -cades', () => {
    const file = fileOf(algorithm);
    const [a, b, c] = rangesOf(file);
    const value = Buffer.from(file.toString('latin1', a + 1, b - 1), 'hex');
    const content = temporaryFile('content', Buffer.concat([file.subarray(0, a), file.subarray(b, b + c)]));
    const cms = temporaryFile('value.der', value.subarray(0, 4 + value.readUInt16BE(2)));
    const root = temporaryFile(
      'root.pem',
      Buffer.from(pem(signerOf(algorithm).chain[1] ?? expect.fail('no root'))),
    );
    const verify = ['cms', '-verify', '-cades', '-binary', '-inform', 'DER', '-in', cms, '-CAfile', root];
    const answer = runTool('openssl', ...verify, '-content', content, '-out', '/dev/null');
    expect(answer.stderr).toContain('CAdES Verification successful');
    expect(answer.status).toBe(0);
    const other = temporaryFile('other', Buffer.concat([file.subarray(0, a - 1), file.subarray(b, b + c)]));
    expect(runTool('openssl', ...verify, '-content', other, '-out', '/dev/null').status).not.toBe(0);
  });

  test('satisfies qpdf and mutool', () => {
    const path = temporaryFile('signed.pdf', fileOf(algorithm));
    const qpdf = runTool('qpdf', '--check', path);
    expect(qpdf.stderr).toBe('');
    expect(qpdf.status).toBe(0);
    expect(qpdf.stdout).toContain('No syntax or stream encoding errors found');
    expect(runTool('mutool', 'sign', '-v', path).stdout).toContain(
      'The document is unchanged since signing.',
    );
  });

  test('has exactly the attributes of baseline B', () => {
    const file = fileOf(algorithm);
    const [a, b] = rangesOf(file);
    const value = Buffer.from(file.toString('latin1', a + 1, b - 1), 'hex');
    const cms = temporaryFile('value.der', value.subarray(0, 4 + value.readUInt16BE(2)));
    const printed = execFileSync('openssl', ['cms', '-cmsout', '-print', '-inform', 'DER', '-in', cms], {
      encoding: 'utf8',
    });
    const objects = [...printed.matchAll(/object: ([\w-]+) \(/g)].map((match) => match[1]);
    // EN 319 142-1 clause 6.3: content type, message digest, signing certificate; the time stays in the file.
    expect(objects).toEqual(['contentType', 'messageDigest', 'id-smime-aa-signingCertificateV2']);
    expect(printed).toMatch(/eContent: <ABSENT>/);
    expect(printed.match(/d\.issuerAndSerialNumber/g)).toHaveLength(1);
    expect(printed).toMatch(/unsignedAttrs:\s+<ABSENT>/);
  });
});

describe('the signed ranges', () => {
  // ISO 32000-1 clause 12.8.1 and Table 252.
  test('cover the file but for the value between < and >', () => {
    const file = fileOf('rsa3072');
    const [a, b, c] = rangesOf(file);
    expect(String.fromCharCode(file[a] ?? 0)).toBe('<');
    expect(String.fromCharCode(file[b - 1] ?? 0)).toBe('>');
    expect(b + c).toBe(file.length);
    expect((b - a) % 2).toBe(0);
  });

  test('leave every byte of the rendered file but time, ranges and value as it was', () => {
    const file = fileOf('rsa3072');
    expect(file.length).toBe(unsigned.length);
    const changed = [...file.keys()].filter((at) => file[at] !== unsigned[at]);
    const text = Buffer.from(unsigned).toString('latin1');
    const start = text.lastIndexOf('/ByteRange');
    const end = text.indexOf('/Name', start);
    expect(Math.min(...changed)).toBeGreaterThan(start);
    expect(Math.max(...changed)).toBeLessThan(end);
  });

  test('RSA signs the same file to the same bytes, so an interrupted issue ends in the same file', () => {
    const again = signPdf(unsigned, signerOf('rsa3072'));
    expect(again.ok && Buffer.compare(again.value, fileOf('rsa3072'))).toBe(0);
  });

  test('do not touch the bytes given', () => {
    const copy = Buffer.from(unsigned);
    signPdf(unsigned, signerOf('ecdsaP256'));
    expect(Buffer.compare(copy, unsigned)).toBe(0);
  });
});

describe('what cannot be signed', () => {
  test('a file that is signed already, no PDF, half a PDF', () => {
    const signer = signerOf('ecdsaP256');
    const refused = { ok: false, error: { code: 'certificate/noEmptySignature' } };
    expect(signPdf(fileOf('ecdsaP256'), signer)).toEqual(refused);
    expect(signPdf(Buffer.from('hello'), signer)).toEqual(refused);
    expect(signPdf(unsigned.subarray(0, unsigned.length / 2), signer)).toEqual(refused);
    expect(signPdf(new Uint8Array(0), signer)).toEqual(refused);
  });

  test('a key that is not the certificate’s', () => {
    const { chain, signedAt } = signerOf('ecdsaP256');
    const { leafKey } = signerOf('rsa3072');
    expect(signPdf(unsigned, { chain, signedAt, leafKey })).toEqual({
      ok: false,
      error: { code: 'certificate/wrongKey' },
    });
  });

  test('text that looks like a placeholder does not mislead the signer', async () => {
    const document = sampleDocument({
      shopName: '/ByteRange [0 /********** /********** /**********] /Contents <00>',
    });
    const signed = signPdf(await render(document), signerOf('ecdsaP256'));
    const path = temporaryFile('trick.pdf', signed.ok ? signed.value : expect.fail('refused'));
    expect(runTool('pdfsig', '-nocert', path).stdout).toContain('Signature is Valid.');
    expect(runTool('pdfsig', '-nocert', path).stdout).toContain('Total document signed');
  });
});
