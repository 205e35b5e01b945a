/** The worker that reads a PDF: as a script of our own origin, which is all the policy lets run. */
import 'pdfjs-dist/legacy/build/pdf.worker.mjs';
