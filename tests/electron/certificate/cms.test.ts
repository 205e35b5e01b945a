import { createHash, verify, X509Certificate } from 'node:crypto';
import { beforeAll, describe, expect, test } from 'vitest';
import { readCms } from '../../../electron/service/certificate/check/readCms.ts';
import {
  buildCms,
  type CmsParts,
  certificateNames,
  sha256,
  signedAttributes,
} from '../../../electron/service/certificate/sign/cms.ts';
import { testSigner } from './signedSample.ts';
import { runTool, temporaryFile } from './tools.ts';

let signer: Awaited<ReturnType<typeof testSigner>>;
let parts: CmsParts;
beforeAll(async () => {
  signer = await testSigner('ecdsaP256');
  parts = {
    chain: signer.chain,
    digest: sha256(Buffer.from('signed bytes')),
    algorithm: 'ecdsa',
    signature: new Uint8Array(70).fill(0x55),
  };
});

describe('the signature value', () => {
  test('is read back to what it was built of, and built again to the same bytes', () => {
    const value = buildCms(parts);
    const read = readCms(value) ?? expect.fail('unread');
    expect(Buffer.from(read.digest).equals(parts.digest)).toBe(true);
    expect(Buffer.from(read.signature).equals(parts.signature)).toBe(true);
    expect(read.chain.map((each) => Buffer.from(each).toString('hex'))).toEqual(
      parts.chain.map((each) => Buffer.from(each).toString('hex')),
    );
    expect(Buffer.compare(buildCms(read), value)).toBe(0);
  });

  test('is read from a hole with zeros behind it', () => {
    const hole = Buffer.concat([buildCms(parts), new Uint8Array(500)]);
    expect(readCms(hole)?.algorithm).toBe('ecdsa');
  });

  test('names RSA and ECDSA as RFC 5754 does', () => {
    const named = (algorithm: CmsParts['algorithm']) =>
      runTool(
        'openssl',
        'asn1parse',
        '-inform',
        'DER',
        '-in',
        temporaryFile('c.der', buildCms({ ...parts, algorithm })),
      ).stdout;
    expect(named('ecdsa').trimEnd().split('\n').at(-2)).toContain(':ecdsa-with-SHA256');
    expect(named('rsa').trimEnd().split('\n').slice(-3).join('\n')).toMatch(
      /sha256WithRSAEncryption[\s\S]*NULL/,
    );
  });

  test('of another kind, or of none, is not read', () => {
    for (const bytes of [
      new Uint8Array(0),
      new Uint8Array(100),
      Buffer.from('3003020101', 'hex'),
      signer.chain[0],
    ]) {
      expect(readCms(bytes)).toBeUndefined();
    }
    const value = Buffer.from(buildCms(parts));
    for (let cut = 0; cut < value.length; cut += 37) expect(readCms(value.subarray(0, cut))).toBeUndefined();
  });
});

describe('the signed attributes', () => {
  test('name the digest of the bytes and of every certificate of the chain', () => {
    const attributes = Buffer.from(signedAttributes(parts.chain, parts.digest)).toString('hex');
    expect(attributes.startsWith('31')).toBe(true);
    expect(attributes).toContain(Buffer.from(parts.digest).toString('hex'));
    for (const certificate of parts.chain) {
      expect(attributes).toContain(createHash('sha256').update(certificate).digest('hex'));
    }
  });

  test('change with the root, so that its bytes are signed too', () => {
    const [leaf, root] = parts.chain;
    const other = Buffer.from(root ?? expect.fail('no root'));
    other[other.length - 1] = (other[other.length - 1] ?? 0) ^ 1;
    const one = signedAttributes([leaf, root ?? leaf], parts.digest);
    expect(Buffer.compare(signedAttributes([leaf, other], parts.digest), one)).not.toBe(0);
  });
});

test('issuer and serial number are the certificate’s own, as an independent reader gives them', () => {
  const [leaf] = signer.chain;
  const names = certificateNames(leaf) ?? expect.fail('no names');
  const printed = new X509Certificate(leaf).serialNumber.toLowerCase();
  expect(Buffer.from(names.serialNumber).toString('hex').slice(4)).toBe(printed);
  expect(Buffer.from(names.issuer).toString('utf8')).toContain('Quayside Body & Glass');
  expect(certificateNames(leaf.subarray(0, 200))).toBeUndefined();
  expect(certificateNames(Buffer.concat([leaf, leaf]))).toBeUndefined();
  expect(certificateNames(new Uint8Array(5))).toBeUndefined();
});

test('the test signer’s own key and certificate belong together', () => {
  const [leaf] = signer.chain;
  const certificate = new X509Certificate(leaf);
  expect(certificate.checkPrivateKey(signer.leafKey)).toBe(true);
  expect(verify('sha256', Buffer.from('x'), certificate.publicKey, Buffer.alloc(70))).toBe(false);
});
