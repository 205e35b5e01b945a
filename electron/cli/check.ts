/** `check FILE.pdf`: answers line by line, without a network and without any store. */
import { readFileSync } from 'node:fs';
import type { CheckLine } from '../../core/certificate/checkReport.ts';
import { recompute } from '../../core/certificate/record.ts';
import { fillTemplate, templateOf } from '../../core/words/index.ts';
import { checkCertificate } from '../service/certificate/check/checkCertificate.ts';
import type { CommandIo } from './commandIo.ts';

const MARKS = { yes: 'yes    ', no: 'NO     ', unknown: 'unknown' } as const;

interface PrintableLine {
  readonly answer: CheckLine['answer'];
  readonly text: string;
  readonly values: Readonly<Record<string, string | number>>;
}

/** The lines as printed: answer, then what was looked at. */
export function checkLines(lines: readonly PrintableLine[]): readonly string[] {
  return lines.map(({ answer, text, values }) => {
    const template = templateOf(text) ?? text;
    const words = Object.fromEntries(Object.entries(values).map(([name, value]) => [name, String(value)]));
    return `${MARKS[answer]}  ${fillTemplate(template, words)}`;
  });
}

interface Options {
  readonly file: string | undefined;
  readonly json: boolean;
  readonly roots: readonly string[];
}

function optionsOf(args: readonly string[]): Options {
  const roots: string[] = [];
  let file: string | undefined;
  let json = false;
  for (let i = 0; i < args.length; i += 1) {
    const arg = args[i] ?? '';
    if (arg === '--json') json = true;
    else if (arg === '--root') {
      i += 1;
      roots.push((args[i] ?? '').replaceAll(/[^0-9a-fA-F]/g, '').toLowerCase());
    } else file = arg;
  }
  return { file, json, roots };
}

/** Exit code 0: every answer is yes. 1: one is no. 2: something cannot be told here, or the file cannot be read. */
export function runCheck(args: readonly string[], io: CommandIo): number {
  const { file, json, roots } = optionsOf(args);
  if (file === undefined) {
    io.error('check FILE.pdf [--root FINGERPRINT] [--json]');
    return 2;
  }
  let bytes: Uint8Array;
  try {
    bytes = readFileSync(file);
  } catch (fault) {
    io.error(`${file} cannot be read: ${fault instanceof Error ? fault.message : String(fault)}`);
    return 2;
  }
  const report = checkCertificate(bytes, {
    recompute,
    ...(roots.length === 0 ? {} : { trust: { rootFingerprints: roots } }),
  });
  io.print(json ? JSON.stringify(report, null, 2) : checkLines(report.lines).join('\n'));
  return report.exitCode;
}
