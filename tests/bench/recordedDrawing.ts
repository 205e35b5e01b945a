/**
 * Records the drawing calls that one render makes on pdfkit, and makes the very same calls again on a bare pdfkit
 * document: no model, no measuring of text, no check of glyphs, no attachment, no signature.
 */
import {
  loadPdfkit,
  type Pdf,
  type StructureElement,
} from '../../electron/service/certificate/render/pdfkit.ts';

type Call = (target: Replay) => void;

/** What a replay knows: its document, and the structure elements made so far, by their number in the recording. */
interface Replay {
  readonly doc: Pdf;
  readonly elements: Map<number, StructureElement>;
}

const drawing = [
  'registerFont',
  'font',
  'fontSize',
  'addPage',
  'continueOnNewPage',
  'switchToPage',
  'text',
  'save',
  'restore',
  'translate',
  'scale',
  'rect',
  'moveTo',
  'lineTo',
  'bezierCurveTo',
  'closePath',
  'lineWidth',
  'lineJoin',
  'lineCap',
  'dash',
  'undash',
  'fillColor',
  'strokeColor',
  'fill',
  'stroke',
  'fillAndStroke',
  'clip',
  'markContent',
  'endMarkedContent',
  'addStructure',
] as const;

/** The very class the certificate is drawn with. */
const PDFDocument = loadPdfkit();
const prototype: object = PDFDocument.prototype;

export interface Recording {
  readonly calls: readonly Call[];
}

/** Runs `render` once and records what it draws. pdfkit is as before when it is done. */
export async function recordDrawing(render: () => Promise<unknown>): Promise<Recording> {
  const recorder = new Recorder();
  recorder.attach();
  try {
    await render();
  } finally {
    recorder.detach();
  }
  return { calls: recorder.calls };
}

/** Makes the recorded calls on a document of its own and gives the bytes. */
export function replayDrawing(
  recording: Recording,
  options: ConstructorParameters<typeof PDFDocument>[0],
): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const doc: Pdf = Reflect.construct(PDFDocument, [options]);
    const chunks: Uint8Array[] = [];
    doc.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    doc.on('end', () => resolve(Buffer.concat(chunks)));
    doc.on('error', reject);
    const replay: Replay = { doc, elements: new Map() };
    for (const call of recording.calls) call(replay);
    doc.end();
  });
}

class Recorder {
  calls: Call[] = [];
  /** Inside pdfkit's own work: its calls to itself are not ours. */
  #inside = 0;
  readonly #numbers = new Map<unknown, number>();
  readonly #undo: (() => void)[] = [];

  attach(): void {
    for (const name of drawing) this.#wrap(prototype, name, (values) => this.#call(name, values));
    this.#wrapStruct();
  }

  detach(): void {
    for (const undo of this.#undo.reverse()) undo();
  }

  #wrap(owner: object, name: string, note: (values: readonly unknown[]) => void): void {
    const original: unknown = Reflect.get(owner, name);
    if (typeof original !== 'function') throw new Error(`pdfkit has no ${name}`);
    const recorder = this;
    Reflect.set(owner, name, function wrapped(this: unknown, ...values: readonly unknown[]) {
      if (recorder.#inside === 0) note(values);
      recorder.#inside++;
      try {
        return Reflect.apply(original, this, values);
      } finally {
        recorder.#inside--;
      }
    });
    this.#undo.push(() => Reflect.set(owner, name, original));
  }

  #call(name: string, values: readonly unknown[]): void {
    const held = values.map((value) => this.#numbers.get(value));
    this.calls.push(({ doc, elements }) => {
      const real = values.map((value, index) => {
        const number = held[index];
        return number === undefined ? value : elements.get(number);
      });
      Reflect.apply(Reflect.get(doc, name), doc, real);
    });
  }

  /** Elements are numbered; a drawing closure becomes a list of calls of its own. */
  #wrapStruct(): void {
    const original: unknown = Reflect.get(prototype, 'struct');
    if (typeof original !== 'function') throw new Error('pdfkit has no struct');
    const recorder = this;
    let elementWrapped = false;
    Reflect.set(
      prototype,
      'struct',
      function wrapped(this: unknown, type: string, options: object, children?: readonly (() => void)[]) {
        const inner: Call[] = [];
        const draws = children?.map((draw) => () => recorder.#record(inner, draw));
        const values = draws === undefined ? [type, options] : [type, options, draws];
        const element: object = Reflect.apply(original, this, values);
        if (!elementWrapped) {
          elementWrapped = true;
          recorder.#wrapElements(Object.getPrototypeOf(element));
        }
        const number = recorder.#numbers.size;
        recorder.#numbers.set(element, number);
        recorder.calls.push((replay) => {
          const run = () => {
            for (const call of inner) call(replay);
          };
          const made =
            draws === undefined ? replay.doc.struct(type, options) : replay.doc.struct(type, options, [run]);
          replay.elements.set(number, made);
        });
        return element;
      },
    );
    this.#undo.push(() => Reflect.set(prototype, 'struct', original));
  }

  #wrapElements(elementPrototype: object): void {
    for (const name of ['add', 'end']) {
      const original: unknown = Reflect.get(elementPrototype, name);
      if (typeof original !== 'function') throw new Error(`a structure element has no ${name}`);
      const recorder = this;
      Reflect.set(elementPrototype, name, function wrapped(this: unknown, ...values: readonly unknown[]) {
        const self = recorder.#numbers.get(this);
        const child = recorder.#numbers.get(values[0]);
        if (recorder.#inside === 0 && self !== undefined && (name === 'end' || child !== undefined)) {
          recorder.calls.push(({ elements }) => {
            const element = elements.get(self);
            if (name === 'end') element?.end();
            else if (child !== undefined) {
              const added = elements.get(child);
              if (added !== undefined) element?.add(added);
            }
          });
        }
        recorder.#inside++;
        try {
          return Reflect.apply(original, this, values);
        } finally {
          recorder.#inside--;
        }
      });
      this.#undo.push(() => Reflect.set(elementPrototype, name, original));
    }
  }

  /** Calls made while `draw` runs go to `into`. */
  #record(into: Call[], draw: () => void): void {
    const { calls } = this;
    const inside = this.#inside;
    this.calls = into;
    this.#inside = 0;
    try {
      draw();
    } finally {
      this.calls = calls;
      this.#inside = inside;
    }
  }
}
