/** What the process gives to the service it hosts, and what it wants back. */
import type { Notice, NoticeName, Output } from '../../../core/contract/index.ts';
import type { PrintAnswer, PrintRequest } from '../printing/printJob.ts';
import type { FileStore } from './fileStore.ts';
import type { Handlers } from './handlers.ts';

/** Issued certificates lie here in the data folder, each named by its digest. */
export const CERTIFICATE_FOLDER = 'certificates';

export type BuildKind = Output<'app.status'>['build'];

/** Fixed for the life of the process. */
export interface Surroundings {
  /** The folder that holds everything the service keeps. Exists and is absolute. */
  readonly dataFolder: string;
  readonly build: BuildKind;
  readonly version: string;
}

export interface Host extends Surroundings {
  /** Bytes by their SHA-256: what the window dropped, and what the service puts there itself. */
  readonly files: FileStore;
  /** Prints a certificate, unsigned: on a thread of its own where others wait for the service meanwhile. */
  readonly print: (request: PrintRequest) => Promise<PrintAnswer>;
  /** Tells every window. */
  notify<N extends NoticeName>(name: N, value: Notice<N>): void;
}

export interface Service {
  readonly handlers: Handlers;
  /** Called once, after the last call has been answered. */
  close(): void | Promise<void>;
}

/** Opens the service's store and returns its handlers; a damaged store is a state to report, not a reason to throw. */
export type StartService = (host: Host) => Service | Promise<Service>;
