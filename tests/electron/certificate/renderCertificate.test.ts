import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { DocumentBlock, DocumentSection } from '../../../core/certificate/document.ts';
import { renderCertificate } from '../../../electron/service/certificate/render/renderCertificate.ts';
import { type SampleOptions, sampleDocument } from './sampleDocument.ts';
import { drawCross, fonts, render } from './signedSample.ts';
import { runTool, temporaryFile, temporaryFolder } from './tools.ts';

const parts = { fonts, drawScene: drawCross };

async function textOf(options: SampleOptions): Promise<readonly string[]> {
  const path = temporaryFile('file.pdf', await render(sampleDocument(options)));
  const { stdout } = runTool('pdftotext', '-layout', '-enc', 'UTF-8', path, '-');
  return Buffer.from(stdout, 'latin1').toString('utf8').split('\f').slice(0, -1);
}

const section = (...blocks: readonly DocumentBlock[]): readonly DocumentSection[] => [
  { heading: 'Evidence', blocks },
];

describe('the pages', () => {
  test('carry number, edition and "page n of N" each, and end clearly', async () => {
    const pages = await textOf({ readings: 90 });
    expect(pages.length).toBeGreaterThan(4);
    pages.forEach((page, index) => {
      expect(page).toContain('certificate HARBOUR-2-2026-0007, edition 1');
      expect(page).toContain(`page ${index + 1} of ${pages.length}`);
      expect(page.includes('End of certificate HARBOUR-2-2026-0007, edition 1')).toBe(
        index === pages.length - 1,
      );
    });
  });

  test('answer on the first one: outcome, sensors, limit, signer, digest', async () => {
    const [first = ''] = await textOf({});
    const document = sampleDocument();
    expect(first).toContain('Calibration carried out');
    expect(first).toMatch(/Forward camera\s+calibrated here, routine passed/);
    expect(first).toMatch(/Front radar\s+needs a road routine, not done here/);
    expect(first).toContain('It is no promise of how the system acts on the road');
    expect(first).toContain(document.signerText);
    expect(first.replace(/\s/g, '')).toContain(document.recordDigest);
    expect(first).not.toContain('This edition replaces');
  });

  test('judge no sensor that was not to be done here', async () => {
    const document = sampleDocument();
    const sensors = [{ name: 'Rear radar', outcome: 'not needed' }];
    const plain = await render({ ...document, answer: { ...document.answer, sensors } });
    const judged = await render({
      ...document,
      answer: {
        ...document.answer,
        sensors: [{ ...sensors[0], name: 'Rear radar', outcome: 'not needed', verdict: 'outside' }],
      },
    });
    expect(Buffer.compare(plain, judged)).not.toBe(0);
    expect(judged.length).toBeGreaterThan(plain.length);
  });

  test('say at their head what an edition replaces, and why', async () => {
    const [first = ''] = await textOf({ edition: 3 });
    expect(first).toContain('This edition replaces edition 2 of HARBOUR-2-2026-0007, which no longer holds.');
    expect(first).toContain('The plate was written wrongly.');
  });

  test('carry the outcome at the head of every further page', async () => {
    const [, ...further] = await textOf({ kind: 'notCalibrated' });
    for (const page of further) expect(page.trimStart().split('\n')[0]).toMatch(/Quayside.*Not calibrated$/);
  });

  test('repeat a table’s head, keep its rows whole and lose none', async () => {
    const pages = await textOf({ readings: 120 });
    const withRows = pages.filter((page) => /^\s*\d+ {2,}(?:Drop|Diagonal)/m.test(page));
    expect(withRows.length).toBeGreaterThan(3);
    for (const page of withRows) expect(page).toMatch(/No\.\s+Reading\s+Value\s+u\s+Instrument\s+Remark/);
    const values = [...pages.join('\n').matchAll(/(\d{4}\.5) mm/g)].map((match) => match[1]);
    expect(values).toEqual(Array.from({ length: 120 }, (_, index) => (2914.5 + index).toFixed(1)));
  });

  test('have the asked size', async () => {
    for (const [paper, size] of [
      ['A4', '595.28 x 841.89 pts (A4)'],
      ['Letter', '612 x 792 pts (letter)'],
    ] as const) {
      const path = temporaryFile('file.pdf', await render(sampleDocument({ paper })));
      expect(runTool('pdfinfo', path).stdout).toContain(size);
    }
  });

  test('are read in order: letterhead, title, answer, limit, facts, evidence, signature', async () => {
    // A small document: poppler draws the page anew for every element it reads.
    const firstPage = sampleDocument().firstPage.slice(1);
    const sections = section({ block: 'text', text: 'What was found.' });
    const path = temporaryFile('file.pdf', await render(sampleDocument({ firstPage, sections })));
    const structure = Buffer.from(runTool('pdfinfo', '-struct-text', path).stdout, 'latin1').toString('utf8');
    const words = [
      'Quayside Body & Glass',
      'Certificate of a static sensor calibration',
      'Calibration carried out',
      'Forward camera',
      'What this certificate does not say',
      'Not done here',
      'What was found.',
      'Signed by',
      'Record digest (SHA-256)',
      'End of certificate',
    ];
    let from = 0;
    for (const each of words) {
      const at = structure.indexOf(each, from);
      expect(at, each).toBeGreaterThanOrEqual(from);
      from = at;
    }
  });
});

describe('the three outcomes', () => {
  /** Share of dark pixels in the band under the title, on a page drawn in grey. */
  async function darkness(options: SampleOptions): Promise<number> {
    const path = temporaryFile('file.pdf', await render(sampleDocument(options)));
    const folder = temporaryFolder();
    runTool('pdftoppm', '-r', '36', '-f', '1', '-l', '1', '-gray', '-singlefile', path, join(folder, 'page'));
    const image = execFileSync('cat', [join(folder, 'page.pgm')]);
    const [, width = '', height = ''] =
      /^P5\s+(\d+) (\d+)\s+255\s/.exec(image.toString('latin1', 0, 40)) ?? [];
    const pixels = image.subarray(image.length - Number(width) * Number(height));
    const band = pixels.subarray(Number(width) * 76, Number(width) * 112);
    return band.filter((value) => value < 80).length / band.length;
  }

  test('differ at a glance without colour: open, framed, solid', async () => {
    const calibrated = await darkness({});
    const notCalibrated = await darkness({ kind: 'notCalibrated' });
    expect(notCalibrated).toBeGreaterThan(0.5);
    expect(calibrated).toBeLessThan(0.15);
  });
});

describe('the same document', () => {
  test('gives the same bytes, in another process, time zone and language', async () => {
    const here = await render(sampleDocument());
    const script = temporaryFile(
      'render.ts',
      Buffer.from(
        `import { render } from ${JSON.stringify(new URL('./signedSample.ts', import.meta.url).pathname)};
         import { sampleDocument } from ${JSON.stringify(new URL('./sampleDocument.ts', import.meta.url).pathname)};
         import { writeFileSync } from 'node:fs';
         writeFileSync(process.argv[2] ?? '', await render(sampleDocument()));`,
      ),
    );
    const module = script.replace(/\.ts$/, '.mts');
    writeFileSync(module, execFileSync('cat', [script]));
    const out = temporaryFile('out.pdf', new Uint8Array(0));
    execFileSync(process.execPath, [module, out], {
      env: { ...process.env, TZ: 'Pacific/Auckland', LANG: 'tr_TR.UTF-8', LC_ALL: 'tr_TR.UTF-8' },
    });
    expect(Buffer.compare(here, execFileSync('cat', [out], { maxBuffer: 1e8 }))).toBe(0);
  });

  test('another word gives other bytes', async () => {
    const one = await render(sampleDocument());
    const other = await render({ ...sampleDocument(), limitSentence: 'None.' });
    expect(Buffer.compare(one, other)).not.toBe(0);
  });
});

describe('text that cannot be printed', () => {
  test('is refused before anything is drawn, each character once, with its place', async () => {
    const document = { ...sampleDocument(), shopName: '汽車 汽', signerText: 'tab\there' };
    expect(await renderCertificate(document, parts)).toEqual({
      ok: false,
      error: {
        code: 'certificate/glyphMissing',
        missing: [
          { codePoint: 'U+6C7D', text: '汽車 汽' },
          { codePoint: 'U+8ECA', text: '汽車 汽' },
          { codePoint: 'U+0009', text: 'tab\there' },
        ],
      },
    });
  });

  test('deep inside a block as well, but not in the attached record, which is not printed', async () => {
    const rows = [['ok', '☃\u{1F697}']];
    const columns = [
      { heading: 'A', align: 'left', share: 1 },
      { heading: 'B', align: 'left', share: 1 },
    ] as const;
    const refused = await renderCertificate(
      sampleDocument({ sections: section({ block: 'table', columns, rows }) }),
      parts,
    );
    expect(refused).toMatchObject({ ok: false, error: { missing: [{ codePoint: 'U+1F697' }] } });
    const attachment = { name: 'r.json', description: 'd', json: '{"a":"汽車"}' };
    expect((await renderCertificate({ ...sampleDocument(), attachment }, parts)).ok).toBe(true);
  });

  test('letters of the trade are all there', async () => {
    const text = 'µ°±²³ΩΔ≤≥≠≈√∑∞−×·→χνσληθ–—“”‰€₂⁻¹⊕ äöüß éèê ñ ø å č ž ł ő ș ğ Ж П';
    const sections = section({ block: 'text', text }, { block: 'text', text, emphasis: 'strong' });
    expect((await renderCertificate(sampleDocument({ sections }), parts)).ok).toBe(true);
  });
});

describe('awkward content', () => {
  const pagesWith = async (...blocks: readonly DocumentBlock[]) =>
    (await textOf({ sections: section(...blocks) })).map((page) => page.replace(/\s+/g, ' '));

  test('a cell, a fact and a caution longer than a page are cut over pages, and no word is lost', async () => {
    const words = Array.from({ length: 2500 }, (_, index) => `w${index}`);
    const text = words.join(' ');
    for (const block of [
      { block: 'table', columns: [{ heading: 'Long', align: 'left', share: 1 }], rows: [[text]] },
      { block: 'facts', facts: [{ label: 'Long', value: text }] },
      { block: 'notice', heading: 'Caution', text },
      { block: 'text', text },
      { block: 'list', items: [text] },
    ] as const) {
      const pages = await pagesWith(block);
      const found = new Set(pages.join(' ').match(/\bw\d+\b/g));
      expect(found.size, block.block).toBe(words.length);
      expect(pages.length).toBeGreaterThan(3);
    }
  }, 60_000);

  test('a value with protected blanks too wide for its column breaks at them, not inside its unit', async () => {
    const columns = [
      { heading: 'A', align: 'right', share: 1 },
      { heading: 'B', align: 'left', share: 13 },
    ] as const;
    const rows = [['±\u00a010.00\u00a0mm', 'x']];
    const pages = await textOf({ sections: section({ block: 'table', columns, rows }) });
    expect(pages.join('\n')).toMatch(/±\s*10\.00\s[\s\S]*\bmm\b/);
  });

  test('neither the last row of a table nor the end mark goes over the page alone', async () => {
    const columns = [{ heading: 'Head', align: 'left', share: 1 }] as const;
    for (let count = 34; count < 46; count++) {
      const rows = Array.from({ length: count }, (_, index) => [`row-${index}-`]);
      const pages = await textOf({ sections: section({ block: 'table', columns, rows }) });
      const last = pages.find((page) => page.includes(`row-${count - 1}-`)) ?? expect.fail('row lost');
      expect(last).toContain(`row-${count - 2}-`);
      expect(pages.at(-1)).toMatch(/Signature\s[\s\S]*Signed by[\s\S]*End of certificate/);
    }
  }, 120_000);

  test('a word wider than its column is cut, not lost', async () => {
    const word = 'X'.repeat(300);
    const pages = await pagesWith({ block: 'facts', facts: [{ label: 'Serial', value: word }] });
    expect(pages.join('').replace(/[^X]/g, '')).toContain(word);
  });

  test('no heading stands alone at the foot of a page', async () => {
    const filler = (lines: number): DocumentBlock => ({
      block: 'list',
      items: Array.from({ length: lines }, () => 'item'),
    });
    const columns = [{ heading: 'Head', align: 'left', share: 1 }] as const;
    const table: DocumentBlock = { block: 'table', columns, rows: Array.from({ length: 30 }, () => ['row']) };
    for (let lines = 36; lines < 48; lines++) {
      const sections = [...section(filler(lines)), { heading: 'Follows', blocks: [table] }];
      const pages = await textOf({ sections });
      const page = pages.find((each) => each.includes('Follows')) ?? expect.fail('no heading');
      expect(page.slice(page.indexOf('Follows'))).toMatch(/Head\s+row\s+row/);
    }
  }, 120_000);

  test('empty blocks draw nothing and break nothing', async () => {
    const pages = await pagesWith(
      { block: 'facts', facts: [] },
      { block: 'table', columns: [], rows: [] },
      { block: 'list', items: [] },
      { block: 'text', text: '' },
    );
    expect(pages.join(' ')).toContain('Evidence');
  });

  test('a value far outside and a one-sided tolerance are drawn', async () => {
    const [row] = sampleDocument().sections.flatMap((each) =>
      each.blocks.flatMap((block) => (block.block === 'verdicts' ? [block] : [])),
    );
    const block = row ?? expect.fail('no verdicts');
    const bars = [
      { upper: 0.5, found: 40, boxHalfWidth: 0.1 },
      { found: 0, boxHalfWidth: 0 },
      { lower: -1, upper: 1, found: -40, boxHalfWidth: 90, whiskerHalfWidth: 100 },
    ];
    const rows = bars.map((bar) => ({ ...(block.rows[0] ?? expect.fail('no row')), bar }));
    const pages = await pagesWith({ ...block, rows });
    expect(pages.join(' ').match(/Ahead of the/g)).toHaveLength(3);
  });
});
