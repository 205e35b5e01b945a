import { deflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { attachedFile } from '../../../electron/service/certificate/check/attachedFile.ts';
import { attempt, openPdfFile, type PdfFile } from '../../../electron/service/certificate/file/pdfFile.ts';
import { PdfSyntaxError } from '../../../electron/service/certificate/file/pdfValue.ts';

/** A small file of these objects, numbered from 1; object 1 is the catalog. */
function fileOf(...objects: readonly (string | Buffer)[]): Buffer {
  let bytes = Buffer.from('%PDF-1.7\n%\xff\xff\xff\xff\n', 'latin1');
  const offsets: number[] = [];
  objects.forEach((object, index) => {
    offsets.push(bytes.length);
    bytes = Buffer.concat([
      bytes,
      Buffer.from(`${index + 1} 0 obj\n`),
      Buffer.from(object),
      Buffer.from('\nendobj\n'),
    ]);
  });
  const table = offsets.map((offset) => `${String(offset).padStart(10, '0')} 00000 n \n`).join('');
  const head = `xref\n0 ${objects.length + 1}\n0000000000 65535 f \n${table}`;
  const trailer = `trailer\n<< /Size ${objects.length + 1} /Root 1 0 R >>\nstartxref\n${bytes.length}\n%%EOF\n`;
  return Buffer.concat([bytes, Buffer.from(head + trailer)]);
}

function opened(bytes: Uint8Array): PdfFile {
  const file = openPdfFile(bytes);
  return file.ok ? file.value : expect.fail(file.error.problem);
}

const stream = (entries: string, content: Buffer | string) =>
  Buffer.concat([
    Buffer.from(`<< ${entries} /Length ${content.length} >>\nstream\n`),
    Buffer.from(content),
    Buffer.from('\nendstream'),
  ]);

describe('a file opened through its table', () => {
  test('gives catalog, references and streams', () => {
    const packed = deflateSync(Buffer.from('hello'));
    const file = opened(fileOf('<< /A 2 0 R /S 3 0 R >>', '(text)', stream('/Filter /FlateDecode', packed)));
    expect(file.entry(file.catalog, 'A')).toMatchObject({ type: 'string' });
    expect(Buffer.from(file.stream(file.catalog.entries.get('S'), 'stream')).toString()).toBe('hello');
    expect(file.updates).toBe(0);
  });

  test('takes the newest of two versions of an object, as a viewer does, and counts the update', () => {
    const first = fileOf('<< /A 2 0 R >>', '(old)');
    const start = first.lastIndexOf('xref\n0');
    const object = '2 0 obj\n(new)\nendobj\n';
    const table = `xref\n2 1\n${String(first.length).padStart(10, '0')} 00000 n \n`;
    const trailer = `trailer\n<< /Root 1 0 R /Prev ${start} >>\nstartxref\n${first.length + object.length}\n%%EOF\n`;
    const file = opened(Buffer.concat([first, Buffer.from(object + table + trailer)]));
    const value = file.entry(file.catalog, 'A');
    expect(value?.type === 'string' && Buffer.from(value.bytes).toString()).toBe('new');
    expect(file.updates).toBe(1);
  });

  test.each([
    ['a missing object', ['<< /A 9 0 R >>'], 'A'],
    ['a stream longer than the file', ['<< /A 2 0 R >>', '<< /Length 99999 >>\nstream\nx\nendstream'], 'A'],
    ['a stream without length', ['<< /A 2 0 R >>', '<< >>\nstream\nx\nendstream'], 'A'],
    ['a length below zero', ['<< /A 2 0 R >>', '<< /Length -5 >>\nstream\nx\nendstream'], 'A'],
    ['an object that does not end', ['<< /A 2 0 R >>', '(text) more'], 'A'],
  ])('%s is damage, not a crash', (_name, objects, entry) => {
    const file = opened(fileOf(...objects));
    const read = attempt(() => file.entry(file.catalog, entry));
    expect(read).toMatchObject({ ok: false, error: { code: 'pdf/damaged' } });
  });

  test.each([
    ['another filter', stream('/Filter /LZWDecode', 'x')],
    ['parameters', stream('/Filter /FlateDecode /DecodeParms << >>', deflateSync(Buffer.from('x')))],
    ['bytes that are not packed', stream('/Filter /FlateDecode', 'hello')],
    ['no stream', Buffer.from('(text)')],
  ])('a stream with %s is not unpacked', (_name, object) => {
    const file = opened(fileOf('<< /A 2 0 R >>', object));
    expect(attempt(() => file.stream(file.catalog.entries.get('A'), 'it')).ok).toBe(false);
  });

  test('a stream that unpacks to more than any page of ours is refused before it fills the memory', () => {
    const bomb = deflateSync(Buffer.alloc(80 * 1024 * 1024));
    const file = opened(fileOf('<< /A 2 0 R >>', stream('/Filter /FlateDecode', bomb)));
    expect(attempt(() => file.stream(file.catalog.entries.get('A'), 'it'))).toMatchObject({
      error: { problem: 'it cannot be unpacked' },
    });
  });

  test('an encrypted file and one with a hybrid table are another program’s', () => {
    for (const entry of ['/Encrypt 1 0 R', '/XRefStm 5']) {
      const bytes = Buffer.from(
        fileOf('<< >>').toString('latin1').replace('/Size', `${entry} /Size`),
        'latin1',
      );
      expect(openPdfFile(bytes)).toMatchObject({ ok: false, error: { code: 'pdf/otherWriter' } });
    }
  });

  test('a bug is not taken for damage', () => {
    expect(() =>
      attempt(() => {
        throw new TypeError('bug');
      }),
    ).toThrow(TypeError);
    expect(
      attempt(() => {
        throw new PdfSyntaxError('damage', 7);
      }),
    ).toEqual({
      ok: false,
      error: { code: 'pdf/damaged', problem: 'damage', offset: 7 },
    });
  });
});

describe('the attached file', () => {
  const md5OfHello = '5d41402abc4b2a76b9719d911017c592';
  const withParameters = (parameters: string) =>
    opened(
      fileOf(
        '<< /AF [2 0 R] >>',
        '<< /Type /Filespec /EF << /F 3 0 R >> >>',
        stream(`/Type /EmbeddedFile /Params << ${parameters} >>`, 'hello'),
      ),
    );

  test('is given when size and checksum are its own', () => {
    const bytes = attachedFile(withParameters(`/Size 5 /CheckSum <${md5OfHello}>`));
    expect(Buffer.from(bytes ?? []).toString()).toBe('hello');
  });

  test.each([
    ['another size', `/Size 6 /CheckSum <${md5OfHello}>`],
    ['another checksum', `/Size 5 /CheckSum <${md5OfHello.replace('5d', '5e')}>`],
    ['a checksum as 32 letters', `/Size 5 /CheckSum (${md5OfHello})`],
    ['no checksum', '/Size 5'],
  ])('is not taken with %s', (_name, parameters) => {
    expect(attachedFile(withParameters(parameters))).toBeUndefined();
  });

  test('is missing where there is none, or more than one', () => {
    expect(attachedFile(opened(fileOf('<< >>')))).toBeUndefined();
    expect(attachedFile(opened(fileOf('<< /AF [2 0 R 2 0 R] >>', '<< >>')))).toBeUndefined();
  });
});
