/**
 * The machine-checkable rules of PDF/A-3b (ISO 19005-3:2012) and PDF/UA-1 (ISO 14289-1:2014) that our writer could
 * break, judged on qpdf's reading of the file. No validator of the standards is packaged for Debian; the clauses stand
 * beside each rule.
 */
import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { operationsOf, pagesOf } from '../../../electron/service/certificate/check/pageContent.ts';
import { openPdfFile } from '../../../electron/service/certificate/file/pdfFile.ts';
import { type Dictionary, isDictionary, type QpdfObjects, qpdfObjects } from './qpdfObjects.ts';
import { type SampleOptions, sampleAttachment } from './sampleDocument.ts';
import { signedSample, testSigner } from './signedSample.ts';
import { runTool, temporaryFile } from './tools.ts';
import { xmlProblem } from './xmlProblem.ts';

const variants: readonly (readonly [string, SampleOptions])[] = [
  ['an A4 certificate', {}],
  ['a Letter, not calibrated, second edition', { kind: 'notCalibrated', edition: 2, paper: 'Letter' }],
  ['a draft with photos', { photos: 5, draft: 'ENTWURF' }],
  ['a long one with awkward letters', { readings: 120, shopName: 'Köhler & Søn <Glass> "Ø" ’ltd’' }],
];

const typed = (objects: QpdfObjects, type: string): readonly Dictionary[] =>
  objects.all.filter((each) => each['/Type'] === type);

const list = (objects: QpdfObjects, value: unknown): readonly unknown[] => {
  const resolved = objects.resolve(value);
  return Array.isArray(resolved) ? resolved : [];
};

function* structureElements(objects: QpdfObjects): Generator<Dictionary> {
  for (const each of objects.all) if (typeof each['/S'] === 'string' && '/P' in each) yield each;
}

describe.each(variants)('%s', (_name, options) => {
  let folder: string;
  let path: string;
  let bytes: Buffer;
  let objects: QpdfObjects;

  beforeAll(async () => {
    bytes = Buffer.from(await signedSample(await testSigner('ecdsaP256'), options));
    folder = mkdtempSync(join(tmpdir(), 'rules-'));
    path = join(folder, 'file.pdf');
    writeFileSync(path, bytes);
    objects = qpdfObjects(path);
  }, 60_000);

  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  test('6.1.2: header, then a comment of four bytes above 127', () => {
    expect(bytes.toString('latin1', 0, 9)).toBe('%PDF-1.7\n');
    expect(bytes[9]).toBe('%'.charCodeAt(0));
    expect([...bytes.subarray(10, 14)].every((byte) => byte > 127)).toBe(true);
  });

  test('6.1.3: identifier, no encryption, at most one line end after the end mark', () => {
    const { trailer } = objects;
    expect(list(objects, trailer['/ID'])).toHaveLength(2);
    expect(trailer).not.toHaveProperty('/Encrypt');
    expect(bytes.toString('latin1', bytes.length - 7)).toMatch(/%%EOF\n?$/);
  });

  test('6.1.7: stream lengths exact, no LZW, no external streams', () => {
    expect(runTool('qpdf', '--check', path)).toMatchObject({ status: 0, stderr: '' });
    for (const each of objects.all) {
      expect(JSON.stringify(each['/Filter'] ?? '')).not.toMatch(/LZW|Crypt/);
      expect(each).not.toHaveProperty('/FFilter');
      expect(each).not.toHaveProperty('/FDecodeParms');
    }
  });

  test('6.1.13: strings under 32768 bytes, names under 128, no nesting of states beyond 28', () => {
    const walk = (value: unknown): void => {
      if (typeof value === 'string') {
        if (value.startsWith('/')) expect(value.length).toBeLessThanOrEqual(128);
        if (value.startsWith('b:')) expect(value.length / 2).toBeLessThan(32_768);
        expect(value.length).toBeLessThan(32_768 * 2 + 2);
      } else if (Array.isArray(value)) value.forEach(walk);
      else if (isDictionary(value)) Object.values(value).forEach(walk);
    };
    objects.all.forEach(walk);
    const file = openPdfFile(bytes);
    if (!file.ok) return expect.fail('unreadable');
    for (const page of pagesOf(file.value)) {
      let depth = 0;
      for (const { operator } of operationsOf(file.value, page)) {
        if (operator === 'q') depth++;
        if (operator === 'Q') depth--;
        expect(depth).toBeLessThanOrEqual(28);
        expect(depth).toBeGreaterThanOrEqual(0);
      }
      expect(depth).toBe(0);
    }
  });

  test('6.2.2, 6.2.3: one sRGB output intent with its profile embedded', () => {
    const intents = list(objects, objects.catalog['/OutputIntents']).map(objects.dictionary);
    expect(intents).toHaveLength(1);
    expect(intents[0]?.['/S']).toBe('/GTS_PDFA1');
    expect(objects.dictionary(intents[0]?.['/DestOutputProfile'])['/N']).toBe(3);
  });

  test('6.2.4.3: no colour space but grey and RGB, which the output intent covers', () => {
    const file = openPdfFile(bytes);
    if (!file.ok) return expect.fail('unreadable');
    for (const page of pagesOf(file.value)) {
      for (const { operator, operands } of operationsOf(file.value, page)) {
        expect(operator).not.toMatch(/^[kK]$/);
        const [space] = operands;
        if (operator === 'cs' || operator === 'CS') expect(space).toMatchObject({ value: 'DeviceRGB' });
      }
    }
  });

  test('6.2.11.4.1: every font embedded; 6.2.11.7: with its table to Unicode (UA-1 7.21.7)', () => {
    const fonts = typed(objects, '/Font');
    expect(fonts.filter((font) => font['/Subtype'] === '/Type0')).toHaveLength(2);
    for (const font of fonts) {
      if (font['/Subtype'] === '/Type0') expect(font).toHaveProperty('/ToUnicode');
      else expect(objects.dictionary(font['/FontDescriptor'])).toHaveProperty('/FontFile2');
    }
  });

  test('6.2.11.8: no missing glyph is shown (UA-1 7.21.8)', () => {
    const file = openPdfFile(bytes);
    if (!file.ok) return expect.fail('unreadable');
    let shown = 0;
    for (const page of pagesOf(file.value)) {
      for (const { operands } of operationsOf(file.value, page).filter(({ operator }) => operator === 'TJ')) {
        const [parts] = operands;
        if (parts?.type !== 'array') continue;
        for (const part of parts.items) {
          if (part.type !== 'string') continue;
          const codes = Buffer.from(part.bytes);
          for (let at = 0; at < codes.length; at += 2, shown++) expect(codes.readUInt16BE(at)).not.toBe(0);
        }
      }
    }
    expect(shown).toBeGreaterThan(1000);
  });

  test('6.3.2, 6.3.3: annotations print, are not hidden, have a normal appearance only', () => {
    const annotations = typed(objects, '/Annot');
    expect(annotations).toHaveLength(1);
    const flags = Number(annotations[0]?.['/F']);
    expect(flags & 4).toBe(4);
    expect(flags & (1 | 2 | 32 | 256)).toBe(0);
    expect(Object.keys(objects.dictionary(annotations[0]?.['/AP']))).toEqual(['/N']);
    expect(annotations[0]).toHaveProperty('/StructParent');
    expect(annotations[0]).toHaveProperty('/TU');
  });

  test('6.4, 6.5: form without NeedAppearances, XFA and actions; no script anywhere', () => {
    const form = objects.dictionary(objects.catalog['/AcroForm']);
    expect(form).not.toHaveProperty('/NeedAppearances');
    expect(form).not.toHaveProperty('/XFA');
    expect(form['/SigFlags']).toBe(3);
    for (const each of objects.all) {
      expect(each).not.toHaveProperty('/AA');
      expect(each).not.toHaveProperty('/JS');
      expect(JSON.stringify(each['/S'] ?? '')).not.toMatch(/JavaScript|Launch/);
    }
    expect(objects.catalog).not.toHaveProperty('/OpenAction');
  });

  test('6.4.3: one signature over the whole file, by its PAdES name (EN 319 142-1 6.3)', () => {
    const signatures = typed(objects, '/Sig');
    expect(signatures).toHaveLength(1);
    const [signature] = signatures;
    const range = list(objects, signature?.['/ByteRange']).map(Number);
    expect((range[2] ?? 0) + (range[3] ?? 0)).toBe(bytes.length);
    expect(signature?.['/SubFilter']).toBe('/ETSI.CAdES.detached');
    expect(signature?.['/Filter']).toBe('/Adobe.PPKLite');
    expect(signature?.['/M']).toMatch(/D:20260305140930Z/);
    expect(signature).not.toHaveProperty('/Cert');
    expect(objects.catalog).not.toHaveProperty('/Perms');
  });

  test('6.6.2.1, 6.6.4: XMP in the open, well-formed, says PDF/A-3b; 14289-1 5: and PDF/UA-1', () => {
    expect(objects.dictionary(objects.catalog['/Metadata'])).not.toHaveProperty('/Filter');
    const xmp = objects.stream(objects.catalog['/Metadata']).toString('utf8');
    expect(xmlProblem(xmp)).toBeUndefined();
    expect(xmp).toMatch(/<pdfaid:part>3<\/pdfaid:part>\s*<pdfaid:conformance>B<\/pdfaid:conformance>/);
    expect(xmp).toMatch(/<pdfuaid:part>1<\/pdfuaid:part>/);
    // 6.6.2.3: a schema that PDF/A does not know is described.
    expect(xmp).toMatch(/<pdfaSchema:namespaceURI>http:\/\/www\.aiim\.org\/pdfua\/ns\/id\/</);
    expect(xmp).toMatch(/<dc:title>/);
    expect(xmp).not.toMatch(/<\?xpacket[^>]*(?:bytes|encoding)=/);
  });

  test('6.8: the record is associated data with name, type, date and the checksum of its bytes', () => {
    const files = list(objects, objects.catalog['/AF']).map(objects.dictionary);
    expect(files).toHaveLength(1);
    const [specification] = files;
    expect(specification?.['/AFRelationship']).toBe('/Data');
    expect(specification?.['/F']).toBe('u:certificate-record.json');
    expect(specification?.['/UF']).toBe('u:certificate-record.json');
    const reference = objects.dictionary(specification?.['/EF'])['/F'];
    const embedded = objects.dictionary(reference);
    expect(embedded['/Subtype']).toBe('/application/json');
    const parameters = objects.dictionary(embedded['/Params']);
    expect(parameters['/ModDate']).toMatch(/D:20260305140709Z/);
    const content = objects.stream(reference);
    expect(content.toString('utf8')).toBe(sampleAttachment(options).json);
    expect(parameters['/Size']).toBe(content.length);
    // qpdf prints bytes that read as text as text.
    const digest = createHash('md5').update(content).digest();
    expect(bytes.toString('latin1')).toContain(`/CheckSum <${digest.toString('hex')}>`);
  });

  test('pdfdetach gives the attached record byte for byte', () => {
    const out = temporaryFile('out.json', new Uint8Array(0));
    expect(runTool('pdfdetach', '-save', '1', '-o', out, path).status).toBe(0);
    expect(readFileSync(out, 'utf8')).toBe(sampleAttachment(options).json);
  });

  test('UA-1 7.1: marked, a structure tree, a language, the title shown', () => {
    expect(objects.dictionary(objects.catalog['/MarkInfo'])['/Marked']).toBe(true);
    expect(objects.catalog).toHaveProperty('/StructTreeRoot');
    expect(objects.catalog['/Lang']).toBe('u:en-GB');
    expect(objects.dictionary(objects.catalog['/ViewerPreferences'])['/DisplayDocTitle']).toBe(true);
  });

  test('UA-1 7.1: all content is tagged or an artifact, and every tag is in the tree', () => {
    const file = openPdfFile(bytes);
    if (!file.ok) return expect.fail('unreadable');
    const shows = /^(?:TJ|Tj|f|F|f\*|S|s|B|b|Do)$/;
    for (const page of pagesOf(file.value)) {
      const open: string[] = [];
      for (const { operator, operands } of operationsOf(file.value, page)) {
        const [tag] = operands;
        if (operator === 'BDC' || operator === 'BMC') open.push(tag?.type === 'name' ? tag.value : '?');
        if (operator === 'EMC') open.pop();
        if (shows.test(operator)) expect(open).not.toHaveLength(0);
        // An artifact inside tagged content, or the other way round, is forbidden.
        expect(open.includes('Artifact') && open.length > 1).toBe(false);
      }
      expect(open).toHaveLength(0);
    }
  });

  test('UA-1 7.2: only standard tags, in their places', () => {
    const allowed = /^\/(?:Document|Sect|H1|H2|P|Table|Caption|TR|TH|TD|L|LI|Lbl|LBody|Figure|Form)$/;
    const parents: Readonly<Record<string, RegExp>> = {
      '/TR': /^\/Table$/,
      '/TH': /^\/TR$/,
      '/TD': /^\/TR$/,
      '/Caption': /^\/Table$/,
      '/LI': /^\/L$/,
      '/Lbl': /^\/LI$/,
      '/LBody': /^\/LI$/,
    };
    let count = 0;
    for (const element of structureElements(objects)) {
      count++;
      const tag = String(element['/S']);
      expect(tag).toMatch(allowed);
      const parent = objects.dictionary(element['/P'])['/S'];
      if (parents[tag] !== undefined) expect(String(parent)).toMatch(parents[tag]);
    }
    expect(count).toBeGreaterThan(200);
  });

  test('UA-1 7.3: figures have words and a box; the form field too', () => {
    const figures = [...structureElements(objects)].filter((each) => each['/S'] === '/Figure');
    expect(figures).toHaveLength(2 + (options.photos ?? 0));
    for (const figure of figures) {
      expect(String(figure['/Alt']).length).toBeGreaterThan(20);
      expect(list(objects, objects.dictionary(figure['/A'])['/BBox'])).toHaveLength(4);
    }
    const forms = [...structureElements(objects)].filter((each) => each['/S'] === '/Form');
    expect(forms).toHaveLength(1);
    expect(forms[0]).toHaveProperty('/Alt');
  });

  test('UA-1 7.4: one H1 first, no level skipped', () => {
    const headings = [...structureElements(objects)].filter((each) => /^\/H\d$/.test(String(each['/S'])));
    expect(headings.filter((each) => each['/S'] === '/H1')).toHaveLength(1);
    expect(headings.filter((each) => each['/S'] === '/H2').length).toBeGreaterThan(3);
  });

  test('UA-1 7.5: tables are regular and their head cells say what they head', () => {
    const tables = [...structureElements(objects)].filter((each) => each['/S'] === '/Table');
    expect(tables.length).toBeGreaterThan(3);
    for (const table of tables) {
      const children = list(objects, table['/K']).map(objects.dictionary);
      const rows = children.filter((each) => each['/S'] === '/TR');
      expect(new Set(rows.map((row) => list(objects, row['/K']).length)).size).toBe(1);
      const cells = rows.flatMap((row) => list(objects, row['/K']).map(objects.dictionary));
      for (const cell of cells.filter((each) => each['/S'] === '/TH')) {
        expect(objects.dictionary(cell['/A'])['/Scope']).toMatch(/^\/(?:Row|Column)$/);
      }
      expect(cells.some((cell) => cell['/S'] === '/TH')).toBe(true);
    }
  });

  test('UA-1 7.6: lists say how they are numbered', () => {
    const lists = [...structureElements(objects)].filter((each) => each['/S'] === '/L');
    expect(lists.map((each) => objects.dictionary(each['/A'])['/ListNumbering']).sort()).toEqual([
      '/Decimal',
      '/None',
    ]);
  });

  test('UA-1 7.18.3: tabs follow the structure on every page', () => {
    for (const page of typed(objects, '/Page')) expect(page['/Tabs']).toBe('/S');
  });
});
