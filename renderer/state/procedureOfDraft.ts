/**
 * From what was typed to a procedure, or every fault with the field it stands beside. The schema and the check of the core
 * have the last word; a fault's place is theirs (`stations.centre.ahead`, `inputs.reach.least`, `source.document`). Pure.
 */
import { parseQuantity } from '../../core/entry/index.ts';
import { checkProcedure, faultKey, type Procedure, procedureSchema } from '../../core/procedure/index.ts';
import { err, ok, type Result } from '../../core/result.ts';
import { say } from '../../core/words/index.ts';
import { placeWords } from '../text/procedurePlace.ts';
import { sayKey } from '../text/sayKey.ts';
import type { ConditionDraft, ProcedureDraft } from './procedureDraft.ts';

/** What is wrong, and beside which field it is said. */
export interface FieldFault {
  readonly where: string;
  readonly words: string;
  /** Nothing is wrong but that nothing is there yet. */
  readonly missing: boolean;
}

/** What a draft does not know of itself. */
export interface DraftContext {
  /** Name of who works here now. */
  readonly enteredBy: string;
  /** The day, `2026-11-25`. */
  readonly today: string;
  /** Ids of the shop's procedures. */
  readonly taken: readonly string[];
  /** The edition this one will be. */
  readonly edition: number;
}

const DAY = /^\d{4}-\d{2}-\d{2}$/;

/** A typed year, length or number; a text that gives none is a fault at `where`. */
class Reader {
  readonly faults: FieldFault[] = [];

  fault(where: string, words: string, text: string): void {
    this.faults.push({ where, words, missing: text.trim() === '' });
  }

  filled(where: string, text: string): string {
    if (text.trim() === '') this.fault(where, say('thing.wrong.text'), text);
    return text.trim();
  }

  day(where: string, text: string): string {
    const real = DAY.test(text.trim()) && !Number.isNaN(Date.parse(text.trim()));
    if (!real) this.fault(where, say('thing.wrong.day'), text);
    return text.trim();
  }

  year(where: string, text: string): number {
    const year = /^\d{4}$/.test(text.trim()) ? Number(text) : Number.NaN;
    if (!(year >= 1950 && year <= 2100)) this.fault(where, say('procedureForm.wrong.year'), text);
    return year;
  }

  lengthMm(where: string, text: string): number {
    const read = parseQuantity(text, { kind: 'length' });
    if (read.ok && read.value.questions.length === 0 && read.value.value > 0) return read.value.value;
    this.fault(where, say('thing.wrong.length'), text);
    return Number.NaN;
  }

  number(where: string, text: string): number {
    const read = parseQuantity(text, { kind: 'count' });
    if (read.ok && read.value.questions.length === 0) return read.value.value;
    this.fault(where, say('procedureForm.wrong.number'), text);
    return Number.NaN;
  }
}

function conditionOf(reader: Reader, draft: ConditionDraft): unknown {
  const where = `conditions.${draft.id}`;
  const { kind, id, blocking, choices } = draft;
  const text = reader.filled(where, draft.text);
  const caution = draft.caution.trim() === '' ? null : draft.caution.trim();
  const common = { kind, id, text, caution, blocking };
  if (kind === 'confirm') return common;
  if (kind === 'choice') return { ...common, choices };
  const least = reader.number(`${where}.least`, draft.least);
  return { ...common, unit: draft.unit.trim(), least, most: reader.number(`${where}.most`, draft.most) };
}

/** An id that starts with a letter and says what it is for: `tidewell-petrel-forwardCamera`. */
function idOf(draft: ProcedureDraft, taken: readonly string[]): string {
  const plain = `${draft.make} ${draft.models.split(',')[0] ?? ''}`
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^[^a-z]+|-+$/g, '')
    .slice(0, 20);
  const base = `${plain === '' ? 'procedure' : plain}-${draft.sensor}`;
  for (let count = 1; ; count += 1) {
    const id = count === 1 ? base : `${base}-${count}`;
    if (!taken.includes(id)) return id;
  }
}

function sensorAtOf({ sensorAt }: ProcedureDraft): Procedure['sensorAt'] {
  return [sensorAt.ahead, sensorAt.left, sensorAt.up].every((text) => text.trim() === '') ? null : sensorAt;
}

/** The document as the schema expects it, with what could not be read left to its own fault. */
function candidate(reader: Reader, draft: ProcedureDraft, context: DraftContext): Record<string, unknown> {
  const make = reader.filled('applicability.make', draft.make);
  const models = reader.filled('applicability.models', draft.models);
  const { body, ...kept } = draft.kept;
  const title =
    draft.title.trim() ||
    say('procedureForm.titleOf', { car: `${make} ${models}`, sensor: say(`sensor.${draft.sensor}`) });
  return {
    ...kept,
    format: 'datumline-procedure-1',
    id: draft.id || idOf(draft, context.taken),
    edition: context.edition,
    title,
    sensor: draft.sensor,
    applicability: {
      make,
      models: models
        .split(',')
        .map((each) => each.trim())
        .filter((each) => each !== ''),
      fromYear: reader.year('applicability.fromYear', draft.fromYear),
      toYear: draft.toYear.trim() === '' ? null : reader.year('applicability.toYear', draft.toYear),
    },
    inputs: draft.inputs,
    conditions: draft.conditions.map((each) => conditionOf(reader, each)),
    target: {
      kind: draft.target.kind,
      name: reader.filled('target.name', draft.target.name),
      widthMm: reader.lengthMm('target.width', draft.target.width),
      heightMm: reader.lengthMm('target.height', draft.target.height),
      ...(body === undefined ? {} : { body }),
    },
    sensorAt: sensorAtOf(draft),
    stations: draft.stations,
    steps: draft.steps.map(({ text, caution }) => ({
      text,
      caution: caution.trim() === '' ? null : caution,
    })),
    source: {
      document: reader.filled('source.document', draft.document),
      section: draft.section.trim(),
      readOn: reader.day('source.readOn', draft.readOn),
      enteredBy: context.enteredBy,
      enteredOn: context.today,
      reviewedBy: null,
      reviewWay: 'unreviewed',
      ...(draft.page === undefined ? {} : { page: draft.page }),
    },
  };
}

/** The place of a schema's complaint in the words of the check: list positions become names. */
function whereOf(draft: ProcedureDraft, path: readonly PropertyKey[]): string {
  const [list, at, ...rest] = path.map(String);
  const index = Number(at);
  if (list === 'stations') {
    const station = draft.stations[index]?.id ?? '';
    const [coordinate, member] = rest;
    const inside = member === 'tolerance' ? [coordinate, 'tolerance'] : [coordinate];
    return ['stations', station, ...inside].filter((each) => each !== undefined).join('.');
  }
  if (list === 'inputs') return ['inputs', draft.inputs[index]?.name ?? '', ...rest].join('.');
  if (list === 'conditions') return `conditions.${draft.conditions[index]?.id ?? ''}`;
  if (list === 'steps') return `steps.${at}`;
  return path.map(String).join('.');
}

function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (each, key) => (typeof each === 'object' && each !== null ? Reflect.get(each, key) : undefined),
    value,
  );
}

/** The schema's complaints that no field has said yet. */
function schemaFaults(draft: ProcedureDraft, made: unknown, reader: Reader): readonly FieldFault[] {
  const parsed = procedureSchema.safeParse(made);
  if (parsed.success) return [];
  return parsed.error.issues
    .filter(({ path }) => !Number.isNaN(valueAt(made, path)))
    .map(({ path }) => {
      const empty = valueAt(made, path) === '';
      const words = empty ? say('thing.wrong.text') : say('procedureForm.wrong.form');
      return { where: whereOf(draft, path), words, missing: empty };
    })
    .filter(({ where }) => !reader.faults.some((each) => each.where === where));
}

/** The procedure of a draft, or every fault in the order of the form; the first of a field only. */
export function procedureOfDraft(
  draft: ProcedureDraft,
  context: DraftContext,
): Result<Procedure, readonly FieldFault[]> {
  const reader = new Reader();
  const made = candidate(reader, draft, context);
  const faults = [...reader.faults, ...schemaFaults(draft, made, reader)];
  const parsed = procedureSchema.safeParse(made);
  if (!parsed.success) return err([...faults, ...textFaults(draft, faults)]);
  const own = checkProcedure(parsed.data).map(
    ({ code, where, text }): FieldFault => ({
      where,
      words: sayKey(faultKey(code), { where: placeWords(where, draft.stations), text }),
      missing: code === 'procedure/expressionEmpty',
    }),
  );
  return faults.length + own.length === 0 ? ok(parsed.data) : err([...faults, ...own]);
}

/**
 * Faults of the stations' texts while something else is still missing: the same check on the stations and inputs alone, with
 * the rest filled in, and empty texts left to the schema.
 */
function textFaults(draft: ProcedureDraft, said: readonly FieldFault[]): readonly FieldFault[] {
  const filled = procedureSchema.safeParse({
    ...candidate(new Reader(), { ...draft, ...FILLED, conditions: [] }, FILLED_CONTEXT),
    steps: [],
    stations: draft.stations.map((station) => ({
      ...station,
      name: station.name || '1',
      ...Object.fromEntries(
        (['ahead', 'left', 'up', 'yaw', 'pitch', 'roll'] as const).map((each) => [
          each,
          { ...station[each], value: station[each].value || '0' },
        ]),
      ),
    })),
  });
  if (!filled.success) return [];
  return checkProcedure(filled.data)
    .filter(({ where }) => !said.some((each) => each.where === where))
    .map(({ code, where, text }) => ({
      where,
      words: sayKey(faultKey(code), { where: placeWords(where, draft.stations), text }),
      missing: false,
    }));
}

const FILLED = {
  make: '1',
  models: '1',
  fromYear: '2000',
  toYear: '',
  document: '1',
  readOn: '2000-01-01',
  target: { kind: 'board', name: '1', width: '1', height: '1' },
} as const;

const FILLED_CONTEXT: DraftContext = { enteredBy: '1', today: '2000-01-01', taken: [], edition: 1 };
