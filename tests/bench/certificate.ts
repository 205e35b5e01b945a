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
import { type Recording, recordDrawing, replayDrawing } from './recordedDrawing.ts';

export interface CertificateBench {
  readonly name: 'certificate';
  readonly warmUps: number;
  readonly pairs: number;
  /** Median of the ratios of the pairs, and the least and greatest of them. */
  readonly ratio: number;
  readonly ratioRange: readonly [number, number];
  readonly aim: number;
  /** Medians, ms. */
  readonly renderAndSignMs: number;
  readonly bareMs: number;
  readonly signMs: number;
  readonly calls: number;
  readonly bytes: number;
  readonly bareBytes: number;
}

const warmUps = 5;
const pairs = 31;
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

/** Runs the comparison: interleaved pairs after warm-ups. */
export async function benchCertificate(): Promise<CertificateBench> {
  const signer = await testSigner('rsa3072');
  const recording = await recordDrawing(render);
  const ours: number[] = [];
  const theirs: number[] = [];
  const signing: number[] = [];
  let bytes = 0;
  let bareBytes = 0;
  for (let round = 0; round < warmUps + pairs; round++) {
    const start = performance.now();
    const unsigned = await render();
    const rendered = performance.now();
    const signed = signPdf(unsigned, signer);
    const end = performance.now();
    if (!signed.ok) throw new Error(signed.error.code);
    const replayed = await bare(recording);
    const bareEnd = performance.now();
    bytes = signed.value.length;
    bareBytes = replayed.length;
    if (round < warmUps) continue;
    ours.push(end - start);
    signing.push(end - rendered);
    theirs.push(bareEnd - end);
  }
  const ratios = ours.map((each, index) => each / (theirs[index] ?? Number.NaN));
  return {
    name: 'certificate',
    warmUps,
    pairs,
    ratio: round3(median(ratios)),
    ratioRange: [round3(Math.min(...ratios)), round3(Math.max(...ratios))],
    aim,
    renderAndSignMs: round3(median(ours)),
    bareMs: round3(median(theirs)),
    signMs: round3(median(signing)),
    calls: recording.calls.length,
    bytes,
    bareBytes,
  };
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}

function round3(value: number): number {
  return Math.round(value * 1000) / 1000;
}

if (process.argv[1] === new URL(import.meta.url).pathname) {
  process.stdout.write(`${JSON.stringify(await benchCertificate(), null, 2)}\n`);
}
