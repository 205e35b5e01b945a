/**
 * Issues the sample certificate in a process of its own, or finishes what an earlier one left. It tells its parent when
 * it has reached the point named and waits there to be killed.
 */
import { join } from 'node:path';
import { err, ok } from '../../../core/result.ts';
import { certificateStore } from '../../../electron/service/certificate/issue/certificateStore.ts';
import {
  finishSealed,
  type IssuePorts,
  issueCertificate,
} from '../../../electron/service/certificate/issue/issueCertificate.ts';
import { signPdf } from '../../../electron/service/certificate/sign/signPdf.ts';
import { append, type JournalSeal, unissuedIn } from './fileJournal.ts';
import { sampleDocument } from './sampleDocument.ts';
import { render, testSigner } from './signedSample.ts';

const [, , folder = '', stopAt = ''] = process.argv;
const signer = await testSigner('ecdsaP256');
const document = sampleDocument({ readings: 1 });
const sealed: JournalSeal = {
  number: document.number,
  edition: document.edition,
  recordDigest: document.recordDigest,
};

async function reached(point: string): Promise<void> {
  if (point !== stopAt) return;
  process.send?.(point);
  await new Promise(() => setInterval(() => {}, 1000));
}

const store = certificateStore(join(folder, 'certificates'));
const ports: IssuePorts<JournalSeal, { readonly code: 'test/failed' }> = {
  render: async () => {
    const bytes = await render(document);
    await reached('rendered');
    return ok(bytes);
  },
  sign: async (bytes) => {
    const signed = signPdf(bytes, signer);
    await reached('signed');
    return signed.ok ? signed : err({ code: 'test/failed' });
  },
  store: {
    ...store,
    write: async (bytes) => {
      const written = await store.write(bytes);
      await reached('stored');
      return written;
    },
  },
  recordIssued: async ({ recordDigest }, fileDigest) => {
    append(folder, { issued: recordDigest, fileDigest });
    return ok(undefined);
  },
};

const unissued = unissuedIn(folder);
if (unissued.length > 0) await finishSealed(unissued, ports);
else {
  await issueCertificate(async () => {
    append(folder, { sealed });
    await reached('sealed');
    return ok(sealed);
  }, ports);
}
await reached('finished');
