/**
 * Rendering and signing a certificate against the same drawing calls on bare pdfkit: what our model, measuring, checks,
 * attachment and signature cost on top of drawing. Aim: at most 1.5 times.
 */
import { readFileSync } from 'node:fs';
import { drawScene } from '../../electron/service/certificate/drawScene.ts';
import { renderCertificate } from '../../electron/service/certificate/render/renderCertificate.ts';
import { signPdf } from '../../electron/service/certificate/sign/signPdf.ts';
import { sampleDocument } from '../electron/certificate/sampleDocument.ts';
import { testSigner } from '../electron/certificate/signedSample.ts';
import { type Comparison, compare, median, rounded } from './compare.ts';
import { type Recording, recordDrawing, replayDrawing } from './recordedDrawing.ts';

export interface CertificateComparison extends Comparison {
  /** Median of signing alone, ms. */
  readonly signMs: number;
  /** Drawing calls on the page and its structure. */
  readonly calls: number;
  readonly bytes: number;
  readonly bareBytes: number;
}

const aim = 1.5;

const fontFile = (name: string) => readFileSync(new URL(`../../assets/fonts/${name}`, import.meta.url));
const fonts = { regular: fontFile('DejaVuSans.ttf'), bold: fontFile('DejaVuSans-Bold.ttf') };
const document = sampleDocument({ readings: 24 });

async function render(): Promise<Uint8Array> {
  const rendered = await renderCertificate(document, { fonts, drawScene });
  if (!rendered.ok) throw new Error(rendered.error.code);
  return rendered.value;
}

function bare(recording: Recording): Promise<Uint8Array> {
  const settings = {
    pdfVersion: '1.7',
    subset: 'PDF/A-3b',
    tagged: true,
    font: null,
    autoFirstPage: false,
    bufferPages: true,
    size: [595.28, 841.89],
    margin: 0,
    info: { CreationDate: new Date(document.issuedAt) },
  } as const;
  // The published types know no `font: null`.
  const options: object = settings;
  return replayDrawing(recording, options);
}

/** Runs the comparison with RSA 3072, the slower of the two signatures. */
export async function benchCertificate(): Promise<CertificateComparison> {
  const signer = await testSigner('rsa3072');
  const recording = await recordDrawing(render);
  const signing: number[] = [];
  let bytes = 0;
  let bareBytes = 0;
  const comparison = await compare({
    name: 'certificate',
    aim,
    ours: async () => {
      const start = performance.now();
      const unsigned = await render();
      const rendered = performance.now();
      const signed = signPdf(unsigned, signer);
      const end = performance.now();
      if (!signed.ok) throw new Error(signed.error.code);
      signing.push(end - rendered);
      bytes = signed.value.length;
      return end - start;
    },
    theirs: async () => {
      const start = performance.now();
      bareBytes = (await bare(recording)).length;
      return performance.now() - start;
    },
  });
  return { ...comparison, signMs: rounded(median(signing)), calls: recording.calls.length, bytes, bareBytes };
}

if (process.argv[1] === new URL(import.meta.url).pathname) {
  process.stdout.write(`${JSON.stringify(await benchCertificate(), null, 2)}\n`);
}
