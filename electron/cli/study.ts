/**
 * `study FILE.json`: a crossed repeatability study by analysis of variance and by ranges, and the line that the shop's record
 * takes from it. Exit code 0: the study replaces the stated default by itself. 1: it does not. 2: the file is no study.
 */
import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { studiedTape, type TapeStudy, tapeStudySchema } from '../../core/job/repeatability.ts';
import {
  type AverageRange,
  acrossPeople,
  averageRange,
  type Components,
  type CrossedAnova,
  crossedAnova,
  crossedStudy,
  type PooledDeviation,
  type Study,
  type StudyError,
  type TestedLine,
} from '../../core/repeatability/index.ts';
import { LEAST_POOLED_DOF } from '../../core/uncertainty/readingUncertainty.ts';
import { formatFixed, formatMm, formatShare } from '../../core/units.ts';
import { say } from '../../core/words/index.ts';
import type { CommandIo } from './commandIo.ts';

const USAGE = 'study FILE.json [--json]';

/** Readings of the same lengths, mm: by set-up, then by person, then the repeats. An example is `assets/demo/study.json`. */
const studyFileSchema = z.strictObject({
  format: z.literal('datumline-study-1'),
  title: z.string().min(1).max(120).optional(),
  of: z.literal('tape'),
  date: tapeStudySchema.shape.date,
  document: tapeStudySchema.shape.document,
  readingsMm: z.array(z.array(z.array(z.number().finite().min(-1e6).max(1e6)).max(50)).max(50)).max(500),
});
type StudyFile = z.infer<typeof studyFileSchema>;

/** Everything the command says, before it is put into words or JSON. */
interface StudyReport {
  readonly file: StudyFile;
  readonly study: Study;
  readonly anova: CrossedAnova;
  readonly byRanges: AverageRange | undefined;
  readonly anybody: PooledDeviation;
  /** Absent where repeats never differed. */
  readonly line: TapeStudy | undefined;
  readonly replaces: boolean;
}

/** Works a study file out; see the exit codes above. */
export function runStudy(args: readonly string[], io: CommandIo): number {
  const json = args.includes('--json');
  const [path, ...more] = args.filter((arg) => arg !== '--json');
  if (path === undefined || more.length > 0 || path.startsWith('--')) {
    io.error(USAGE);
    return 2;
  }
  const file = readStudy(path, io);
  if (file === undefined) return 2;
  const study = crossedStudy(file.readingsMm);
  if (!study.ok) {
    io.error(`${path}: ${faultSentence(study.error)}`);
    return 2;
  }
  const report = reportOf(file, study.value);
  io.print(json ? JSON.stringify(jsonOf(report)) : textOf(report).join('\n'));
  return report.replaces ? 0 : 1;
}

function readStudy(path: string, io: CommandIo): StudyFile | undefined {
  let document: unknown;
  try {
    document = JSON.parse(readFileSync(path, 'utf8'));
  } catch (fault) {
    io.error(`${path} cannot be read as JSON: ${fault instanceof Error ? fault.message : String(fault)}`);
    return undefined;
  }
  const parsed = studyFileSchema.safeParse(document);
  if (parsed.success) return parsed.data;
  io.error(`${path} is no study (an example is assets/demo/study.json)`);
  for (const issue of parsed.error.issues) io.error(`  ${issue.path.join('.')}: ${issue.message}`);
  return undefined;
}

/** Places are counted from 1, as a person counts them. */
function faultSentence(fault: StudyError): string {
  switch (fault.code) {
    case 'repeatability/tooFew':
      return say('study.tooFew');
    case 'repeatability/unequal':
      return say('study.unequal', { part: String(fault.part + 1), person: String(fault.person + 1) });
    case 'repeatability/notANumber':
      return say('study.notANumber', {
        part: String(fault.part + 1),
        person: String(fault.person + 1),
        trial: String(fault.trial + 1),
      });
  }
}

/** The standard deviation is written to the shop's record in ten-thousandths of a millimetre. */
const written = (sMm: number): number => Math.round(sMm * 1e4) / 1e4;

function reportOf(file: StudyFile, study: Study): StudyReport {
  const anova = crossedAnova(study);
  const ranges = averageRange(study);
  const { s, dof } = anova.pooledRepeatability;
  const line = { s: written(s), dof, date: file.date, document: file.document };
  const useful = tapeStudySchema.safeParse(line).success ? line : undefined;
  return {
    file,
    study,
    anova,
    byRanges: ranges.ok ? ranges.value : undefined,
    anybody: acrossPeople(anova, study.parts, study.trials),
    line: useful,
    // Whether it counts does not depend on the way of working: only the default that stands otherwise does.
    replaces: useful !== undefined && studiedTape({ tape: [useful] }, 'careful') !== undefined,
  };
}

const LABEL = 40;
const COLUMN = 20;
const row = (label: string, ...cells: readonly string[]): string =>
  `  ${label.padEnd(LABEL)}${cells.map((cell) => cell.padStart(COLUMN)).join('')}`.trimEnd();

function varianceTable(anova: CrossedAnova): readonly string[] {
  const tested = ({ dof, meanSquare, f, p }: TestedLine): readonly string[] => [
    String(dof),
    formatFixed(meanSquare, 4),
    formatFixed(f, 3),
    p < 5e-5 ? '< 0.0001' : formatFixed(p, 4),
  ];
  const { readingLine, pooledLine } = anova;
  const pooled =
    pooledLine === undefined
      ? []
      : [row(say('study.line.pooled'), String(pooledLine.dof), formatFixed(pooledLine.meanSquare, 4))];
  return [
    row('', say('study.head.dof'), say('study.head.meanSquare'), say('study.head.f'), say('study.head.p')),
    row(say('study.line.part'), ...tested(anova.partLine)),
    row(say('study.line.person'), ...tested(anova.personLine)),
    row(say('study.line.interaction'), ...tested(anova.interactionLine)),
    row(say('study.line.reading'), String(readingLine.dof), formatFixed(readingLine.meanSquare, 4)),
    ...pooled,
  ];
}

const COMPONENTS = [
  'repeatability',
  'reproducibility',
  'interaction',
  'measuring',
  'parts',
  'total',
] as const satisfies readonly (keyof Components)[];

function spreadTable({ anova, byRanges }: StudyReport): readonly string[] {
  // Lengths differ by metres: shares of the whole would all be nothing, so they are told of the measuring alone.
  const share = (of: Components, key: (typeof COMPONENTS)[number]): string =>
    key === 'parts' || key === 'total' || of.measuring.variance === 0
      ? ''
      : formatShare(of[key].variance / of.measuring.variance, 1);
  const cell = (of: Components, key: (typeof COMPONENTS)[number]): string =>
    `${formatMm(of[key].sigma, 3)} ${share(of, key).padStart(7)}`;
  return [
    row('', say('study.head.anova'), ...(byRanges === undefined ? [] : [say('study.head.range')])),
    ...COMPONENTS.map((key) =>
      row(
        say(`study.component.${key}`),
        cell(anova, key),
        ...(byRanges === undefined ? [] : [cell(byRanges, key)]),
      ),
    ),
    ...(byRanges === undefined ? [say('study.noConstants')] : []),
  ];
}

/** People count as different from here on (a test at 5 %; common practice, no source). */
const DIFFER_BELOW = 0.05;

function shopLines({ line, replaces }: StudyReport): readonly string[] {
  if (line === undefined) return [say('study.allAlike')];
  return [
    say('study.line'),
    `  ${JSON.stringify(line)}`,
    replaces ? say('study.replaces') : say('study.notYet', { least: String(LEAST_POOLED_DOF) }),
  ];
}

function textOf(report: StudyReport): readonly string[] {
  const { file, study, anova, anybody } = report;
  const deviation = ({ s, dof }: PooledDeviation) => ({ s: formatMm(s, 3), dof: formatFixed(dof, 1) });
  const { p } = anova.personLine;
  return [
    ...(file.title === undefined ? [] : [file.title]),
    say('study.size', {
      parts: String(study.parts),
      people: String(study.people),
      trials: String(study.trials),
    }),
    '',
    say('study.table'),
    ...varianceTable(anova),
    '',
    say('study.spread'),
    ...spreadTable(report),
    '',
    say('study.samePerson', deviation(anova.pooledRepeatability)),
    say('study.anybody', deviation(anybody)),
    ...(p < DIFFER_BELOW ? [say('study.peopleDiffer', { p: formatFixed(p, 4) })] : []),
    '',
    ...shopLines(report),
  ];
}

/** For scripts: mm, no wording. */
function jsonOf({ file, study, anova, byRanges, anybody, line, replaces }: StudyReport) {
  const { parts, people, trials } = study;
  return {
    format: 'datumline-studied-1',
    title: file.title ?? null,
    parts,
    people,
    trials,
    anova,
    byRanges: byRanges ?? null,
    samePerson: anova.pooledRepeatability,
    anybody,
    line: line ?? null,
    replaces,
  };
}
