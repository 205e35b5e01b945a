/**
 * `impact CORRECTIONS.json FILE...`: solves the jobs inside certificates again with what turned out to be wrong put right,
 * and says which verdicts turn. FILE is a signed PDF, the JSON file attached to one, or a folder of them. Exit code 0:
 * nothing turns. 1: a verdict turns. 2: something cannot be read or solved.
 */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { type CertificateRecord, readAttachment } from '../../core/certificate/attachment.ts';
import { isAngleCoordinate } from '../../core/frames.ts';
import { type Correction, correctionSchema } from '../../core/job/correction.ts';
import { type Impact, impactOf, type JudgedChange, type JudgedValue } from '../../core/job/impact.ts';
import { eventsOfTexts } from '../../core/job/readEvents.ts';
import { formatDeg, formatMm } from '../../core/units.ts';
import { say } from '../../core/words/index.ts';
import { examineRecord } from '../service/certificate/check/attachedRecord.ts';
import { openPdfFile } from '../service/certificate/file/pdfFile.ts';
import type { CommandIo } from './commandIo.ts';

const USAGE = 'impact CORRECTIONS.json FILE|FOLDER... [--json]';

const correctionsSchema = z.array(correctionSchema).min(1).max(50);

/** A file's record, or why it has none. */
type Found =
  | { readonly file: string; readonly record: CertificateRecord }
  | { readonly file: string; readonly problem: string };

function recordOf(file: string): Found {
  let bytes: Uint8Array;
  try {
    bytes = readFileSync(file);
  } catch (fault) {
    return { file, problem: fault instanceof Error ? fault.message : String(fault) };
  }
  return file.endsWith('.json') ? recordInJson(file, bytes) : recordInPdf(file, bytes);
}

function recordInJson(file: string, bytes: Uint8Array): Found {
  try {
    const reading = readAttachment(JSON.parse(Buffer.from(bytes).toString('utf8')));
    return reading.kind === 'record'
      ? { file, record: reading.attachment.record }
      : { file, problem: `no record of a certificate (${reading.kind})` };
  } catch (fault) {
    return { file, problem: fault instanceof Error ? fault.message : String(fault) };
  }
}

function recordInPdf(file: string, bytes: Uint8Array): Found {
  const pdf = openPdfFile(bytes);
  if (!pdf.ok) return { file, problem: pdf.error.code };
  const finding = examineRecord(pdf.value);
  return 'attachment' in finding
    ? { file, record: finding.attachment.record }
    : { file, problem: `no record of a certificate (${finding.state})` };
}

/** The files meant: of a folder its certificates, in the order of their names. */
function filesOf(path: string): readonly string[] {
  const folder = statSync(path, { throwIfNoEntry: false })?.isDirectory() === true;
  if (!folder) return [path];
  return readdirSync(path)
    .filter((name) => name.endsWith('.pdf') || name.endsWith('.json'))
    .sort()
    .map((name) => join(path, name));
}

function readCorrections(file: string, io: CommandIo): readonly Correction[] | undefined {
  try {
    const parsed = correctionsSchema.safeParse(JSON.parse(readFileSync(file, 'utf8')));
    if (parsed.success) return parsed.data;
    for (const issue of parsed.error.issues) io.error(`${file}: ${issue.path.join('.')}: ${issue.message}`);
  } catch (fault) {
    io.error(`${file} cannot be read as JSON: ${fault instanceof Error ? fault.message : String(fault)}`);
  }
  return undefined;
}

function valueText(change: JudgedChange, value: JudgedValue | undefined): string {
  if (value === undefined) return say('impact.notFound');
  const angle = change.judged !== 'radial' && isAngleCoordinate(change.judged);
  const amount = Math.abs(value.deviation);
  const off = angle ? formatDeg(amount, 2) : formatMm(amount, 1);
  return say('impact.value', { verdict: say(`certificate.verdict.${value.verdict}`), off });
}

/** The lines of one job: what turns, or that nothing does. */
export function impactLines(number: string, impact: Impact): readonly string[] {
  if (!impact.touched) return [say('impact.untouched', { number })];
  if (impact.turned.length === 0 && impact.troubles.length === 0) return [say('impact.same', { number })];
  return [
    say('impact.turns', { number, count: String(impact.turned.length) }),
    ...impact.turned.map((change) => {
      const { station, judged } = change;
      const what = judged === 'radial' ? say('impact.radial') : say(`coordinate.${judged}`);
      const [before, after] = [valueText(change, change.before), valueText(change, change.after)];
      return `  ${say('impact.change', { station, what, before, after })}`;
    }),
    ...impact.troubles.map((each) => `  ${each.sensor}: ${each.error.code}`),
  ];
}

/** Runs the command; see the exit codes above. */
export function runImpact(args: readonly string[], io: CommandIo): number {
  const json = args.includes('--json');
  const [first, ...paths] = args.filter((arg) => arg !== '--json');
  if (first === undefined || paths.length === 0) {
    io.error(USAGE);
    return 2;
  }
  const corrections = readCorrections(first, io);
  if (corrections === undefined) return 2;
  const results: { readonly number: string; readonly impact: Impact }[] = [];
  let failed = false;
  for (const found of paths.flatMap(filesOf).map(recordOf)) {
    const solved = 'problem' in found ? found : impactOfRecord(found.file, found.record, corrections);
    if ('problem' in solved) {
      io.error(`${solved.file}: ${solved.problem}`);
      failed = true;
      continue;
    }
    results.push(solved);
  }
  if (json) io.print(JSON.stringify(results));
  else for (const { number, impact } of results) io.print(impactLines(number, impact).join('\n'));
  if (failed || results.some(({ impact }) => impact.troubles.length > 0)) return 2;
  return results.some(({ impact }) => impact.turned.length > 0) ? 1 : 0;
}

function impactOfRecord(
  file: string,
  record: CertificateRecord,
  corrections: readonly Correction[],
):
  | { readonly number: string; readonly impact: Impact }
  | { readonly file: string; readonly problem: string } {
  const events = eventsOfTexts(record.events);
  if (!events.ok) return { file, problem: `${events.error.code}: ${events.error.details.problem}` };
  const impact = impactOf(events.value, corrections);
  return impact.ok ? { number: record.number, impact: impact.value } : { file, problem: impact.error.code };
}
