/**
 * From bytes to lines. A line ends with CR, LF or both; empty lines are none. What has not ended is no line: half a line
 * that a pulled plug leaves over must never be read as a shorter number, nor the rest of one that we came upon.
 */
import { MOST_LINE } from '../../../core/instruments/index.ts';

/** One line as it came; `cut` when it was longer than any line may be, and only its beginning is here. */
export interface FramedLine {
  readonly text: string;
  readonly cut: boolean;
}

export interface LineFramer {
  /** Takes bytes and answers the lines that ended in them. */
  feed(chunk: Uint8Array): readonly FramedLine[];
  /** Forgets what has not ended. With `inMidLine` what comes up to the next end is the rest of a line nobody saw begin. */
  reset(inMidLine: boolean): void;
}

const CR = 13;
const LF = 10;

const utf8 = new TextDecoder('utf-8', { fatal: true });
const latin1 = new TextDecoder('latin1');

/** The text of a line: UTF-8 where it is that, else Latin-1 as older instruments write their degree sign. */
export function lineText(bytes: Uint8Array): string {
  let text: string;
  try {
    text = utf8.decode(bytes);
  } catch {
    text = latin1.decode(bytes);
  }
  // Start and end marks of some instruments' telegrams, and what a plug makes when it is put in.
  return [...text]
    .filter((character) => character >= ' ' && character !== '\u007f')
    .join('')
    .trim();
}

/** A framer that has not seen anything yet. */
export function lineFramer(): LineFramer {
  const line = new Uint8Array(MOST_LINE);
  let length = 0;
  let isCut = false;
  let isSkipping = false;

  function take(part: Uint8Array): void {
    const room = MOST_LINE - length;
    if (part.length > room) isCut = true;
    line.set(part.subarray(0, room), length);
    length = Math.min(MOST_LINE, length + part.length);
  }

  function ended(): FramedLine | undefined {
    const text = isSkipping ? '' : lineText(line.subarray(0, length));
    const cut = isCut;
    length = 0;
    isCut = false;
    isSkipping = false;
    return text === '' ? undefined : { text, cut };
  }

  return {
    feed(chunk) {
      const lines: FramedLine[] = [];
      let from = 0;
      for (let at = 0; at < chunk.length; at += 1) {
        if (chunk[at] !== CR && chunk[at] !== LF) continue;
        take(chunk.subarray(from, at));
        from = at + 1;
        const framed = ended();
        if (framed !== undefined) lines.push(framed);
      }
      take(chunk.subarray(from));
      return lines;
    },
    reset(inMidLine) {
      length = 0;
      isCut = false;
      isSkipping = inMidLine;
    },
  };
}
