/** Draws the pages of a stored PDF onto canvases, one below the other. The library and its worker come with the first draft. */
import { fileAddress } from '../api.ts';

/** Device pixels of a page's width: sharp at the width it is shown in. */
const PAGE_WIDTH_PX = 1240;

/** Draws every page in order through `place`, which gives a canvas for each; ends early once `gone` says so. */
export async function drawPages(
  digest: string,
  place: (page: number, pages: number) => HTMLCanvasElement,
  gone: () => boolean,
): Promise<void> {
  const { getDocument, PDFWorker } = await import('pdfjs-dist/legacy/build/pdf.mjs');
  const answer = await fetch(fileAddress(digest));
  if (!answer.ok) throw new Error(`no draft: ${answer.status}`);
  const data = new Uint8Array(await answer.arrayBuffer());
  const port = new Worker(new URL('./pdfWorker.ts', import.meta.url), { type: 'module' });
  const worker = PDFWorker.create({ port });
  const task = getDocument({ data, worker, enableXfa: false, useWasm: false, useSystemFonts: false });
  try {
    const pdf = await task.promise;
    for (let number = 1; number <= pdf.numPages && !gone(); number += 1) {
      const page = await pdf.getPage(number);
      const scale = PAGE_WIDTH_PX / page.getViewport({ scale: 1 }).width;
      const viewport = page.getViewport({ scale });
      const canvas = place(number, pdf.numPages);
      canvas.width = Math.floor(viewport.width);
      canvas.height = Math.floor(viewport.height);
      await page.render({ canvas, viewport }).promise;
    }
  } finally {
    await task.destroy();
    port.terminate();
  }
}
