/** Rendered and signed samples, with keys made for the test run. */
import { createPrivateKey } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { CertificateDocument } from '../../../core/certificate/document.ts';
import { invariant } from '../../../core/result.ts';
import { renderCertificate } from '../../../electron/service/certificate/render/renderCertificate.ts';
import type { SceneDrawer } from '../../../electron/service/certificate/render/sceneBlock.ts';
import { type SigningKey, signPdf } from '../../../electron/service/certificate/sign/signPdf.ts';
import {
  exportPrivateKey,
  generateKeyPair,
  issueCertificate,
  type KeyAlgorithm,
} from '../../../electron/service/keys/issueCertificate.ts';
import { fingerprintOf } from '../../../electron/service/keys/shopKeys.ts';
import { type SampleOptions, sampleDocument } from './sampleDocument.ts';
import { samplePhoto } from './samplePhoto.ts';

const fontFile = (name: string) => readFileSync(new URL(`../../../assets/fonts/${name}`, import.meta.url));
export const fonts = { regular: fontFile('DejaVuSans.ttf'), bold: fontFile('DejaVuSans-Bold.ttf') };

/** A cross in the box: the scenes themselves are tested where they are drawn. */
export const drawCross: SceneDrawer = (doc, _scene, box) => {
  doc.lineWidth(1).strokeColor('#0B5FA5');
  doc
    .moveTo(box.x, box.y)
    .lineTo(box.x + box.width, box.y + box.height)
    .stroke();
};

export async function render(document: CertificateDocument): Promise<Uint8Array> {
  const rendered = await renderCertificate(document, {
    fonts,
    drawScene: drawCross,
    pictureBytes: () => samplePhoto,
  });
  invariant(rendered.ok, 'the sample renders');
  return rendered.value;
}

export interface TestSigner extends SigningKey {
  readonly rootFingerprint: string;
}

export interface SignerOptions {
  readonly notBefore?: Date;
  readonly notAfter?: Date;
  readonly name?: string;
}

/** A shop root and the leaf of an installation, without key files. */
export async function testSigner(
  algorithm: KeyAlgorithm,
  options: SignerOptions = {},
): Promise<TestSigner & { readonly rootPair: Awaited<ReturnType<typeof generateKeyPair>> }> {
  const root = await generateKeyPair(algorithm);
  const leaf = await generateKeyPair(algorithm);
  const commonName = options.name ?? 'Quayside Body & Glass';
  const issuer = { ...root, commonName, algorithm };
  const times = {
    notBefore: options.notBefore ?? new Date('2026-01-01T00:00:00Z'),
    notAfter: options.notAfter ?? new Date('2036-01-01T00:00:00Z'),
  };
  const rootDer = await issueCertificate(
    { commonName, serial: new Uint8Array(16).fill(7), publicKey: root.publicKey, ...times },
    issuer,
    true,
  );
  const leafDer = await issueCertificate(
    {
      commonName: `${commonName}, bay 2`,
      serial: new Uint8Array(16).fill(9),
      publicKey: leaf.publicKey,
      ...times,
    },
    issuer,
    false,
  );
  const pkcs8 = Buffer.from(await exportPrivateKey(leaf.privateKey));
  return {
    leafKey: createPrivateKey({ key: pkcs8, format: 'der', type: 'pkcs8' }),
    chain: [leafDer, rootDer],
    signedAt: new Date('2026-03-05T14:09:30Z'),
    rootFingerprint: fingerprintOf(rootDer),
    rootPair: root,
  };
}

export async function signedSample(signer: SigningKey, options: SampleOptions = {}): Promise<Uint8Array> {
  const signed = signPdf(await render(sampleDocument(options)), signer);
  invariant(signed.ok, 'the sample is signed');
  return signed.value;
}
