import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import type { JsonObject } from '../../../core/canonical.ts';
import { attachmentFormat, attachmentSchemaVersion } from '../../../core/certificate/attachment.ts';
import { runImpact } from '../../../electron/cli/impact.ts';
import { envelope, textOf } from '../../core/job/chainOfEvents.ts';
import { Journal } from '../../core/job/madeJob.ts';
import { CENTRE, SQUARE } from '../../core/placement/trueLayout.ts';

const folder = mkdtempSync(join(tmpdir(), 'impact-'));
afterAll(() => rmSync(folder, { recursive: true }));

function run(...args: readonly string[]) {
  const out: string[] = [];
  const errors: string[] = [];
  const code = runImpact(args, { print: (text) => out.push(text), error: (text) => errors.push(text) });
  return { code, out: out.join('\n'), errors: errors.join('\n') };
}

function file(name: string, content: unknown): string {
  const path = join(folder, name);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
}

/** The attached file of a certificate of a job whose target stands at its place. */
function attachment(number: string, change: JsonObject = {}): unknown {
  const journal = new Journal();
  journal.open([CENTRE]);
  journal.read(SQUARE, [CENTRE]);
  const events = journal.events.map(({ seq, type, payload }) =>
    textOf(
      envelope({ seq, storeSeq: seq, type, payload: JSON.parse(JSON.stringify(payload)) as JsonObject }),
    ),
  );
  const record = {
    number,
    edition: 1,
    kind: 'calibrated',
    issuedAt: '2026-11-25T10:00:00Z',
    numbers: [],
    events,
  };
  return { format: attachmentFormat, schema: attachmentSchemaVersion, record, disclosures: [], ...change };
}

const arm = (lengthMm: number) => [{ kind: 'sideArm', side: 'left', lengthMm }];
const long = file('long.json', arm(320));
const slight = file('slight.json', arm(281));
const same = file('same.json', arm(280));
const one = file('H-1.attached.json', attachment('H-1'));

describe('impact CORRECTIONS.json FILE...', () => {
  test('names the verdict that turns, before and after', () => {
    const { code, out } = run(long, one);
    expect(code).toBe(1);
    expect(out.split('\n')).toEqual([
      'H-1: verdicts that turn: 1',
      "  centre, to the car's left: proven (off by 0.0 mm); now outside (off by 20.0 mm)",
    ]);
  });
  test('says when every verdict stays, and when the correction concerns nothing', () => {
    expect(run(slight, one)).toEqual({ code: 0, out: 'H-1: solved again, every verdict stays.', errors: '' });
    expect(run(same, one).out).toBe('H-1: the correction concerns nothing in this job.');
  });
  test('goes through a folder in the order of names', () => {
    const many = join(folder, 'many');
    mkdirSync(many);
    writeFileSync(join(many, 'b.json'), JSON.stringify(attachment('H-3')));
    writeFileSync(join(many, 'a.json'), JSON.stringify(attachment('H-2')));
    writeFileSync(join(many, 'note.txt'), 'no certificate');
    expect(
      run(slight, many)
        .out.split('\n')
        .map((line) => line.slice(0, 3)),
    ).toEqual(['H-2', 'H-3']);
  });
  test('prints everything as JSON for scripts', () => {
    const { code, out } = run(long, one, '--json');
    expect(code).toBe(1);
    const [result] = JSON.parse(out) as {
      number: string;
      impact: { turned: { after: { verdict: string } }[] };
    }[];
    expect(result?.number).toBe('H-1');
    expect(result?.impact.turned[0]?.after.verdict).toBe('outside');
  });
  test('what cannot be read is named, and the others are told all the same', () => {
    const broken = file('broken.json', '{');
    const strange = file('strange.json', { format: 'else' });
    const noPdf = file('no.pdf', 'no pdf at all');
    const { code, out, errors } = run(slight, broken, strange, noPdf, join(folder, 'missing.pdf'), one);
    expect(code).toBe(2);
    expect(out).toContain('every verdict stays');
    expect(errors.split('\n')).toHaveLength(4);
    expect(errors).toContain('pdf/notPdf');
    expect(errors).toContain('malformed');
  });
  test('corrections that are none are refused with their place', () => {
    const wrong = file('wrong.json', [{ kind: 'sideArm', side: 'middle', lengthMm: 1 }]);
    const { code, errors } = run(wrong, one);
    expect(code).toBe(2);
    expect(errors).toContain('0.side');
    expect(run(file('none.json', []), one).code).toBe(2);
    expect(run(join(folder, 'nowhere.json'), one).errors).toContain('cannot be read');
  });
  test('without files it says how it is called', () => {
    expect(run(long)).toEqual({
      code: 2,
      out: '',
      errors: 'impact CORRECTIONS.json FILE|FOLDER... [--json]',
    });
  });
});
