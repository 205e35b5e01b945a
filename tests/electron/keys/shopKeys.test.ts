import { randomBytes, X509Certificate } from 'node:crypto';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { commonName } from '../../../electron/service/keys/commonName.ts';
import {
  createInstallationKey,
  createShopKeys,
  fingerprintOf,
  type ShopKeys,
} from '../../../electron/service/keys/shopKeys.ts';
import { openSigningKey, openSigningKeyFile } from '../../../electron/service/keys/signingKey.ts';
import { runTool, temporaryFolder } from '../certificate/tools.ts';

const now = new Date('2026-03-01T08:00:00Z');
const awkwardName = 'Köhler & Søn, "Kai" <7> +x=y #1';
const common = { now, random: (count: number) => randomBytes(count) };
const made: Record<string, ShopKeys> = {};

beforeAll(async () => {
  for (const algorithm of ['ecdsaP256', 'rsa3072'] as const) {
    made[algorithm] = await createShopKeys({
      ...common,
      algorithm,
      shopName: awkwardName,
      installationName: 'bay 1',
      passphrase: 'leaf pass',
      rootPassphrase: 'root pass',
    });
  }
}, 60_000);

const keysOf = (algorithm: string) => made[algorithm] ?? expect.fail('no keys');

async function chainOf(file: Uint8Array, passphrase: string) {
  const opened = await openSigningKey(file, passphrase);
  if (!opened.ok) return expect.fail(opened.error.code);
  const [leaf, root] = opened.value.chain.map((der) => new X509Certificate(der));
  return { leaf: leaf ?? expect.fail('no leaf'), root: root ?? expect.fail('no root'), opened: opened.value };
}

describe.each(['ecdsaP256', 'rsa3072'])('keys of a new shop, %s', (algorithm) => {
  test('the leaf belongs to its key, is issued by the root, and may only sign', async () => {
    const { leaf, root, opened } = await chainOf(keysOf(algorithm).leafFile, 'leaf pass');
    expect(leaf.checkPrivateKey(opened.leafKey)).toBe(true);
    expect(leaf.checkIssued(root)).toBe(true);
    expect(leaf.verify(root.publicKey)).toBe(true);
    expect(root.verify(root.publicKey)).toBe(true);
    expect([root.ca, leaf.ca]).toEqual([true, false]);
    expect(commonName(root)).toBe(awkwardName);
    expect(commonName(leaf)).toBe(`${awkwardName}, bay 1`);
    expect(opened.rootFingerprint).toBe(keysOf(algorithm).rootFingerprint);
    const details = opened.leafKey.asymmetricKeyDetails;
    expect(details?.modulusLength ?? details?.namedCurve).toBe(algorithm === 'rsa3072' ? 3072 : 'prime256v1');
  });

  test('the certificates have the profile a PDF signature wants, as openssl reads them', async () => {
    const { leaf, root } = await chainOf(keysOf(algorithm).leafFile, 'leaf pass');
    const folder = temporaryFolder();
    writeFileSync(join(folder, 'root.pem'), root.toString());
    writeFileSync(join(folder, 'leaf.pem'), leaf.toString());
    const verified = runTool(
      'openssl',
      'verify',
      '-x509_strict',
      '-CAfile',
      join(folder, 'root.pem'),
      join(folder, 'leaf.pem'),
    );
    expect(verified).toMatchObject({ status: 0 });
    const text = runTool('openssl', 'x509', '-in', join(folder, 'leaf.pem'), '-noout', '-text').stdout;
    expect(text).toMatch(/Basic Constraints: critical\s+CA:FALSE/);
    expect(text).toMatch(/Key Usage: critical\s+Digital Signature, Non Repudiation\s/);
    expect(text).toMatch(/Subject Key Identifier/);
    expect(text).toMatch(/Authority Key Identifier/);
    expect(text).not.toMatch(/Extended Key Usage/);
    const rootText = runTool('openssl', 'x509', '-in', join(folder, 'root.pem'), '-noout', '-text').stdout;
    expect(rootText).toMatch(/Basic Constraints: critical\s+CA:TRUE, pathlen:0/);
    expect(rootText).toMatch(/Key Usage: critical\s+Certificate Sign, CRL Sign\s/);
  });

  test('hold for ten and twenty-five years from the moment given', async () => {
    const { leaf, root } = await chainOf(keysOf(algorithm).leafFile, 'leaf pass');
    expect(leaf.validFromDate).toEqual(now);
    expect(leaf.validToDate).toEqual(new Date('2036-03-01T08:00:00Z'));
    expect(root.validToDate).toEqual(new Date('2051-03-01T08:00:00Z'));
    expect(leaf.serialNumber).toMatch(/^[4-7][0-9A-F]{31}$/);
    expect(leaf.serialNumber).not.toBe(root.serialNumber);
  });

  test('the owner’s file issues the leaf of another bay under the same root', async () => {
    const keys = keysOf(algorithm);
    const request = {
      ...common,
      algorithm: 'ecdsaP256',
      shopName: awkwardName,
      installationName: 'bay 2',
      passphrase: 'two',
    } as const;
    const second = await createInstallationKey(request, keys.rootFile, 'root pass');
    const { leaf, root } = await chainOf(second.ok ? second.value : expect.fail('not issued'), 'two');
    expect(fingerprintOf(root.raw)).toBe(keys.rootFingerprint);
    expect(leaf.checkIssued(root)).toBe(true);
    expect(leaf.verify(root.publicKey)).toBe(true);
    expect(commonName(leaf)).toBe(`${awkwardName}, bay 2`);
  });

  test('the two files do not stand in for one another', async () => {
    const keys = keysOf(algorithm);
    const request = { ...common, shopName: 'x', installationName: 'y', passphrase: 'z' };
    expect(await openSigningKey(keys.rootFile, 'root pass')).toEqual({
      ok: false,
      error: { code: 'keys/damaged' },
    });
    expect(await createInstallationKey(request, keys.leafFile, 'leaf pass')).toEqual({
      ok: false,
      error: { code: 'keys/damaged' },
    });
    expect(await createInstallationKey(request, keys.rootFile, 'leaf pass')).toEqual({
      ok: false,
      error: { code: 'keys/wrongPassphrase' },
    });
  });
});

describe('the installation’s key on disk', () => {
  test('is opened from its file; missing, wrong and damaged are told apart', async () => {
    const folder = temporaryFolder();
    const path = join(folder, 'installation.key');
    const code = async (passphrase: string) => {
      const opened = await openSigningKeyFile(path, passphrase);
      return opened.ok ? 'opened' : opened.error.code;
    };
    expect(await code('leaf pass')).toBe('keys/missing');
    writeFileSync(path, keysOf('ecdsaP256').leafFile);
    expect(await code('leaf pass')).toBe('opened');
    expect(await code('guess')).toBe('keys/wrongPassphrase');
    writeFileSync(path, keysOf('ecdsaP256').leafFile.subarray(0, 300));
    expect(await code('leaf pass')).toBe('keys/damaged');
  });
});
