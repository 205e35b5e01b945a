/**
 * Lines over a serial port. A port is known by its name only; where ports are found is this file's knowledge. The
 * library with its binary is loaded when the first port is opened: a shop without one never needs it.
 */
import { readdir, readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import {
  type InstrumentFault,
  instrumentFault,
  portNameSchema,
  type StreamSource,
} from '../../../core/instruments/index.ts';
import type { OpenSource } from './source.ts';

type SerialSettings = StreamSource & { readonly kind: 'serial' };

/** Where the operating system shows its ports. */
const PORT_FOLDER = '/dev';
const DRIVER_FOLDER = '/sys/class/tty';

/**
 * So often it is looked whether the port is still there. On systems that show ports as files the end of a pulled one reads
 * as nothing, again and again, and the library then reads for ever without a word; the file is gone at once.
 */
const LOOK_EVERY_MS = 250;

/** Phrases by which the library tells trouble, on every system it runs on. */
const PHRASES: readonly (readonly [RegExp, 'noSuchPort' | 'portBusy' | 'notAllowed'])[] = [
  [/no such file|file not found|cannot find/i, 'noSuchPort'],
  [/cannot lock|resource temporarily unavailable|resource busy|access denied/i, 'portBusy'],
  [/permission denied|operation not permitted/i, 'notAllowed'],
];

/** What an error of a port says. */
export function serialFault(error: Error, place: string): InstrumentFault {
  const known = PHRASES.find(([phrase]) => phrase.test(error.message));
  if (known !== undefined) return instrumentFault(`instrument.${known[1]}`, { place });
  return instrumentFault('instrument.trouble', { place, problem: error.message });
}

/** Which file stands at a path, so that another one in its place is noticed; empty for none. */
async function fileAt(path: string): Promise<string> {
  const found = await stat(path).catch(() => undefined);
  return found === undefined ? '' : `${found.dev} ${found.ino} ${found.rdev}`;
}

/** A source at a port; `folder` is where ports are shown, on systems that show them as files. */
export function serialSource(settings: SerialSettings, folder: string = PORT_FOLDER): OpenSource {
  const place = settings.port;
  const path = process.platform === 'win32' ? place : join(folder, place);
  return ({ opened, bytes, ended }) => {
    let isOver = false;
    let closePort: () => void = () => undefined;
    let look: NodeJS.Timeout | undefined;
    const stop = () => {
      isOver = true;
      clearTimeout(look);
      closePort();
    };
    const end = (fault: InstrumentFault) => {
      if (isOver) return;
      stop();
      ended(fault);
    };
    const watch = async (before: string) => {
      const now = await fileAt(path);
      if (isOver) return;
      if (now === before) look = setTimeout(() => void watch(before), LOOK_EVERY_MS);
      else end(instrumentFault('instrument.unplugged', { place }));
    };
    const start = async () => {
      const { SerialPort } = await import('serialport');
      const file = await fileAt(path);
      if (isOver) return;
      const { baud: baudRate, dataBits, stopBits, parity } = settings;
      const port = new SerialPort({ path, baudRate, dataBits, stopBits, parity, autoOpen: false });
      closePort = () => {
        // Closing while it opens is refused by the library; it is closed as soon as it is open.
        if (port.isOpen) port.close(() => undefined);
      };
      port.on('data', (chunk: Buffer) => {
        if (!isOver) bytes(chunk);
      });
      port.on('error', (error: Error) => end(serialFault(error, place)));
      port.on('close', () => end(instrumentFault('instrument.unplugged', { place })));
      port.open((error) => {
        if (error) return end(serialFault(error, place));
        if (isOver) return closePort();
        opened();
        if (process.platform !== 'win32') void watch(file);
      });
    };
    start().catch((thrown) =>
      end(serialFault(thrown instanceof Error ? thrown : new Error(String(thrown)), place)),
    );
    return stop;
  };
}

/** A built-in port is shown by its driver whether or not there is hardware behind it; type 0 says there is none. */
async function hasHardware(name: string): Promise<boolean> {
  if (!/^ttyS\d/.test(name)) return true;
  const type = await readFile(join(DRIVER_FOLDER, name, 'type'), 'utf8').catch(() => '0');
  return type.trim() !== '0';
}

/** Names of the serial ports there are now, in order. */
export async function serialPorts(folder: string = PORT_FOLDER): Promise<readonly string[]> {
  if (process.platform === 'win32') {
    const { SerialPort } = await import('serialport');
    return (await SerialPort.list()).map((port) => port.path).filter((name) => isPortName(name));
  }
  const names = (await readdir(folder).catch(() => [])).filter((name) => isPortName(name));
  const real = await Promise.all(names.map(hasHardware));
  return names.filter((_, index) => real[index]).sort(inOrder);
}

function isPortName(name: string): boolean {
  return portNameSchema.safeParse(name).success;
}

/** `ttyUSB2` before `ttyUSB10`. */
function inOrder(a: string, b: string): number {
  const [wordA, wordB] = [a.replace(/\d+$/, ''), b.replace(/\d+$/, '')];
  if (wordA !== wordB) return wordA < wordB ? -1 : 1;
  return Number(a.slice(wordA.length)) - Number(b.slice(wordB.length));
}
