import { type ChildProcess, fork } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { sha256Hex } from '../../../core/canonical.ts';
import { err, ok } from '../../../core/result.ts';
import { identifyCertificate } from '../../../electron/service/certificate/check/identifyCertificate.ts';
import { certificateStore } from '../../../electron/service/certificate/issue/certificateStore.ts';
import {
  finishSealed,
  type IssuePorts,
  issueCertificate,
} from '../../../electron/service/certificate/issue/issueCertificate.ts';
import { signPdf } from '../../../electron/service/certificate/sign/signPdf.ts';
import { unissuedIn } from './fileJournal.ts';
import { sampleDocument } from './sampleDocument.ts';
import { render, testSigner } from './signedSample.ts';
import { temporaryFolder } from './tools.ts';

const sample = sampleDocument({ readings: 1 });
const sealed = { number: sample.number, edition: sample.edition, recordDigest: sample.recordDigest };
type Sealed = typeof sealed;
type Failure = { readonly code: 'test/failed' };

let signer: Awaited<ReturnType<typeof testSigner>>;
let unsigned: Uint8Array;
beforeAll(async () => {
  signer = await testSigner('ecdsaP256');
  unsigned = await render(sample);
}, 60_000);

/** A journal in memory; `failAt` makes one step throw, as a stop of the process would end it. */
function trial(folder: string, failAt?: 'seal' | 'render' | 'sign' | 'write' | 'note') {
  const steps: string[] = [];
  const issued: string[] = [];
  let sealedOnes: Sealed[] = [];
  const stop = (step: typeof failAt) => {
    steps.push(step ?? '');
    if (step === failAt) throw new Error(`stopped at ${step}`);
  };
  const store = certificateStore(folder);
  const ports: IssuePorts<Sealed, Failure> = {
    render: async () => {
      stop('render');
      return ok(unsigned);
    },
    sign: async (bytes) => {
      stop('sign');
      const signed = signPdf(bytes, signer);
      return signed.ok ? signed : err({ code: 'test/failed' });
    },
    store: {
      ...store,
      write: async (bytes) => {
        stop('write');
        return store.write(bytes);
      },
    },
    recordIssued: async (_sealed, digest) => {
      stop('note');
      issued.push(digest);
      sealedOnes = [];
      return ok(undefined);
    },
  };
  const seal = async () => {
    stop('seal');
    sealedOnes = [sealed];
    return ok(sealed);
  };
  return { ports, seal, steps, issued, unissued: () => sealedOnes };
}

const stored = (folder: string) => (existsSync(folder) ? readdirSync(folder).sort() : []);

describe('issuing', () => {
  test('goes seal, render, sign, store, note, and ends in a file named by its digest', async () => {
    const folder = join(temporaryFolder(), 'archive', 'certificates');
    const { ports, seal, steps, issued } = trial(folder);
    const outcome = await issueCertificate(seal, ports);
    expect(steps).toEqual(['seal', 'render', 'sign', 'write', 'note']);
    const digest = outcome.ok ? outcome.value.fileDigest : expect.fail('not issued');
    expect(issued).toEqual([digest]);
    expect(stored(folder)).toEqual([`${digest}.pdf`]);
    const bytes = readFileSync(join(folder, `${digest}.pdf`));
    expect(sha256Hex(bytes)).toBe(digest);
    expect(identifyCertificate(bytes)).toEqual(sealed);
  });

  test.each(['seal', 'render', 'sign', 'write', 'note'] as const)(
    'stopped at %s leaves nothing half done that finishing does not finish, once',
    async (step) => {
      const folder = temporaryFolder();
      const first = trial(folder, step);
      await expect(issueCertificate(first.seal, first.ports)).rejects.toThrow(`stopped at ${step}`);
      expect(first.issued).toEqual([]);
      const second = trial(folder);
      const outcomes = await finishSealed(first.unissued(), second.ports);
      expect(outcomes.map((outcome) => outcome.ok)).toEqual(step === 'seal' ? [] : [true]);
      expect(second.issued).toHaveLength(step === 'seal' ? 0 : 1);
      // ECDSA signs differently each time: a file that was there already must be adopted, not made again.
      expect(second.steps.includes('sign')).toBe(step !== 'seal' && step !== 'note');
      expect(stored(folder)).toEqual(second.issued.map((digest) => `${digest}.pdf`));
    },
  );

  test('an outcome of a part stops there and is passed on', async () => {
    const folder = temporaryFolder();
    const { ports, seal, issued } = trial(folder);
    const failure = err({ code: 'test/failed' as const });
    expect(await issueCertificate(async () => failure, ports)).toEqual(failure);
    expect(await issueCertificate(seal, { ...ports, render: async () => failure })).toEqual(failure);
    expect(await issueCertificate(seal, { ...ports, sign: async () => failure })).toEqual(failure);
    expect(stored(folder)).toEqual([]);
    expect(await issueCertificate(seal, { ...ports, recordIssued: async () => failure })).toEqual(failure);
    expect(issued).toEqual([]);
  });

  test('a file that is not what was sealed is not handed out', async () => {
    const folder = temporaryFolder();
    const { ports, issued } = trial(folder);
    const other = { ...sealed, recordDigest: '0'.repeat(64) };
    const refused = err({ code: 'certificate/selfCheckFailed' });
    expect(await issueCertificate(async () => ok(other), ports)).toEqual(refused);
    expect(
      await issueCertificate(async () => ok(sealed), { ...ports, sign: async (bytes) => ok(bytes) }),
    ).toEqual(refused);
    expect(issued).toEqual([]);
    expect(stored(folder)).toEqual([]);
  });

  test('finishing adopts only a whole file of this very record and sweeps what a stop left', async () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, `${'a'.repeat(64)}.pdf.part`), 'half');
    writeFileSync(join(folder, `${'b'.repeat(64)}.part`), 'half');
    const broken = Buffer.from(unsigned);
    writeFileSync(join(folder, `${sha256Hex(broken)}.pdf`), broken);
    const signed = signPdf(unsigned, signer);
    writeFileSync(join(folder, `${'c'.repeat(64)}.pdf`), signed.ok ? signed.value : expect.fail('unsigned'));
    const { ports, issued, steps } = trial(folder);
    await finishSealed([sealed], ports);
    expect(steps).toEqual(['render', 'sign', 'write', 'note']);
    expect(stored(folder)).toContain(`${issued[0]}.pdf`);
    expect(stored(folder).some((name) => name.endsWith('.part'))).toBe(false);
  });

  test('with nothing sealed, finishing touches nothing', async () => {
    const { ports, steps } = trial(temporaryFolder());
    expect(await finishSealed([], ports)).toEqual([]);
    expect(steps).toEqual([]);
  });
});

describe('the store', () => {
  test('says plainly that the folder may not be written, or is a file', async () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, 'file'), '');
    expect(await certificateStore(join(folder, 'file')).write(unsigned)).toEqual(
      err({ code: 'certificate/storeNotWritable' }),
    );
    expect(await certificateStore(join(folder, 'file', 'below')).write(unsigned)).toEqual(
      err({ code: 'certificate/storeNotWritable' }),
    );
  });

  test('says that the disk is full', async () => {
    expect(await certificateStoreOnFullDisk().write(unsigned)).toEqual(
      err({ code: 'certificate/storeFull' }),
    );
  });

  /** A name that leads to the device that is always full. */
  function certificateStoreOnFullDisk() {
    const folder = temporaryFolder();
    const digest = sha256Hex(unsigned);
    symlinkSync('/dev/full', join(folder, `${digest}.part`));
    return certificateStore(folder);
  }

  test('gives back only bytes that still have their digest', async () => {
    const folder = temporaryFolder();
    const store = certificateStore(folder);
    const written = await store.write(unsigned);
    const digest = written.ok ? written.value : expect.fail('not written');
    expect(await store.list()).toEqual([digest]);
    expect(Buffer.compare((await store.read(digest)) ?? Buffer.alloc(0), unsigned)).toBe(0);
    writeFileSync(join(folder, `${digest}.pdf`), 'else');
    expect(await store.read(digest)).toBeUndefined();
    expect(await store.read('f'.repeat(64))).toBeUndefined();
  });

  test('of a folder that is not there is empty', async () => {
    const store = certificateStore(join(temporaryFolder(), 'none'));
    expect(await store.list()).toEqual([]);
    await store.sweep();
  });
});

describe('a real process killed while issuing', () => {
  const script = new URL('./issueInProcess.ts', import.meta.url).pathname;

  /** Starts the issuing process and resolves when it says that it has reached the point, or ends. */
  async function runUntil(folder: string, stopAt: string): Promise<ChildProcess> {
    const child = fork(script, [folder, stopAt], {
      execArgv: [],
      stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    });
    await new Promise<void>((resolve, reject) => {
      child.once('message', () => resolve());
      child.once('exit', () => reject(new Error('the process ended before the point')));
    });
    return child;
  }

  const kill = (child: ChildProcess) =>
    new Promise<void>((resolve) => {
      child.once('exit', () => resolve());
      child.kill('SIGKILL');
    });

  test.each(['sealed', 'rendered', 'signed', 'stored'])(
    'after %s is finished by the next start, with one certificate in journal and store',
    async (point) => {
      const folder = temporaryFolder();
      mkdirSync(join(folder, 'keys'));
      await kill(await runUntil(folder, point));
      expect(unissuedIn(folder)).toHaveLength(1);
      const before = stored(join(folder, 'certificates')).filter((name) => name.endsWith('.pdf'));
      expect(before).toHaveLength(point === 'stored' ? 1 : 0);
      await kill(await runUntil(folder, 'finished'));
      expect(unissuedIn(folder)).toEqual([]);
      const files = stored(join(folder, 'certificates'));
      expect(files).toHaveLength(1);
      if (point === 'stored') expect(files).toEqual(before);
      const bytes = readFileSync(join(folder, 'certificates', files[0] ?? ''));
      expect(identifyCertificate(bytes)).toEqual(sealed);
    },
    60_000,
  );
});
