import { expect, test } from 'vitest';
import { invariant } from '../../../core/result.ts';
import { operationsOf, pagesOf } from '../../../electron/service/certificate/check/pageContent.ts';
import { openPdfFile } from '../../../electron/service/certificate/file/pdfFile.ts';
import { recordDrawing, replayDrawing } from '../../bench/recordedDrawing.ts';
import { sampleDocument } from './sampleDocument.ts';
import { render } from './signedSample.ts';

/** Every operator with its operands, page by page. */
function drawn(bytes: Uint8Array): readonly string[] {
  const file = openPdfFile(bytes);
  invariant(file.ok, 'the file opens');
  return pagesOf(file.value).map((page) =>
    operationsOf(file.value, page)
      .map(({ operator, operands }) => {
        const texts = operands.map((each) =>
          JSON.stringify(each, (key, value) => (key === 'start' || key === 'end' ? undefined : value)),
        );
        return `${texts.join(' ')} ${operator}`;
      })
      .join('\n'),
  );
}

test('the bench compares with the very same ink: a replay draws every page operator for operator', async () => {
  const document = sampleDocument({ readings: 30 });
  let ours = new Uint8Array(0);
  const recording = await recordDrawing(async () => {
    ours = new Uint8Array(await render(document));
  });
  const settings: object = {
    pdfVersion: '1.7',
    tagged: true,
    font: null,
    autoFirstPage: false,
    bufferPages: true,
    size: [595.28, 841.89],
    margin: 0,
  };
  const replayed = drawn(await replayDrawing(recording, settings));
  expect(replayed.length).toBeGreaterThan(3);
  expect(replayed).toEqual(drawn(ours));
  // And pdfkit is itself again afterwards.
  expect(Buffer.compare(await render(document), ours)).toBe(0);
});
