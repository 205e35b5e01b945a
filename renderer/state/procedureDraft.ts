/**
 * A procedure while it is being written: every number is still the text that was typed. Lengths, angles and expressions
 * of a station are texts in the procedure itself and stay so. Pure.
 */
import type { Coordinate } from '../../core/frames.ts';
import type {
  Procedure,
  ProcedureCondition,
  ProcedureStation,
  ProcedureTolerance,
} from '../../core/procedure/index.ts';
import { SQUARE_HEADING } from './signedText.ts';

export type SensorKind = Procedure['sensor'];
export const SENSOR_KINDS = ['forwardCamera', 'frontRadar', 'cornerRadar', 'surroundCamera'] as const;

export interface ConditionDraft {
  readonly kind: ProcedureCondition['kind'];
  readonly id: string;
  readonly text: string;
  readonly caution: string;
  readonly blocking: boolean;
  readonly unit: string;
  readonly least: string;
  readonly most: string;
  readonly choices: readonly { readonly value: string; readonly text: string; readonly fits: boolean }[];
}

export interface ProcedureDraft {
  /** Empty until it is recorded for the first time. */
  readonly id: string;
  readonly title: string;
  readonly sensor: SensorKind;
  readonly make: string;
  /** With commas between. */
  readonly models: string;
  readonly fromYear: string;
  /** Empty while the model is still built. */
  readonly toYear: string;
  readonly document: string;
  readonly section: string;
  readonly readOn: string;
  readonly page: Procedure['source']['page'] | undefined;
  readonly target: {
    readonly kind: Procedure['target']['kind'];
    readonly name: string;
    readonly width: string;
    readonly height: string;
  };
  readonly inputs: Procedure['inputs'];
  readonly conditions: readonly ConditionDraft[];
  readonly stations: readonly ProcedureStation[];
  readonly steps: readonly { readonly text: string; readonly caution: string }[];
  readonly sensorAt: { readonly ahead: string; readonly left: string; readonly up: string };
  /** What this form does not ask and leaves as it is. */
  readonly kept: Pick<Procedure, 'fictional' | 'decisionRule' | 'pauseLimitMin' | 'bay'> & {
    readonly body: Procedure['target']['body'];
  };
}

export const NOT_STATED: ProcedureTolerance = { kind: 'notStated', workingLimit: null };

/** A station with nothing typed: square to the car, upright, no tolerance stated. */
export function emptyStation(id: string, name: string): ProcedureStation {
  const upright = { value: '0', from: 'contactPlane', tolerance: NOT_STATED } as const;
  return {
    id,
    name,
    kind: 'reposition',
    place: 'ahead',
    ahead: { value: '', from: 'bodyFace', tolerance: NOT_STATED },
    left: { value: '', from: 'centreline', tolerance: NOT_STATED },
    up: { value: '', from: 'contactPlane', tolerance: NOT_STATED },
    yaw: { value: SQUARE_HEADING.ahead, from: 'centreline', tolerance: NOT_STATED },
    pitch: upright,
    roll: upright,
    free: [],
    capturePrompt: '',
  };
}

const TARGET_OF: Readonly<Record<SensorKind, Procedure['target']['kind']>> = {
  forwardCamera: 'board',
  frontRadar: 'plate',
  cornerRadar: 'corner',
  surroundCamera: 'mat',
};

/** An empty sheet for a sensor, read today; `stationName` is the name of its one station. */
export function emptyDraft(sensor: SensorKind, today: string, stationName: string): ProcedureDraft {
  return {
    id: '',
    title: '',
    sensor,
    make: '',
    models: '',
    fromYear: '',
    toYear: '',
    document: '',
    section: '',
    readOn: today,
    page: undefined,
    target: { kind: TARGET_OF[sensor], name: '', width: '', height: '' },
    inputs: [],
    conditions: [],
    stations: [emptyStation('station1', stationName)],
    steps: [],
    sensorAt: { ahead: '', left: '', up: '' },
    kept: { fictional: false, decisionRule: null, body: undefined },
  };
}

/** Another sensor's usual target comes with the sensor, as long as nobody has named one. */
export function withSensor(draft: ProcedureDraft, sensor: SensorKind): ProcedureDraft {
  const { target } = draft;
  const kind = target.kind === TARGET_OF[draft.sensor] ? TARGET_OF[sensor] : target.kind;
  return { ...draft, sensor, target: { ...target, kind } };
}

function conditionDraft(condition: ProcedureCondition): ConditionDraft {
  const value = condition.kind === 'value' ? condition : undefined;
  return {
    kind: condition.kind,
    id: condition.id,
    text: condition.text,
    caution: condition.caution ?? '',
    blocking: condition.blocking,
    unit: value?.unit ?? '',
    least: value === undefined ? '' : String(value.least),
    most: value === undefined ? '' : String(value.most),
    choices: condition.kind === 'choice' ? condition.choices : [],
  };
}

/** A procedure opened for writing. */
export function draftOf(procedure: Procedure): ProcedureDraft {
  const { applicability, source, target, pauseLimitMin, bay } = procedure;
  return {
    id: procedure.id,
    title: procedure.title,
    sensor: procedure.sensor,
    make: applicability.make,
    models: applicability.models.join(', '),
    fromYear: String(applicability.fromYear),
    toYear: applicability.toYear === null ? '' : String(applicability.toYear),
    document: source.document,
    section: source.section,
    readOn: source.readOn,
    page: source.page,
    target: {
      kind: target.kind,
      name: target.name,
      width: `${target.widthMm} mm`,
      height: `${target.heightMm} mm`,
    },
    inputs: procedure.inputs,
    conditions: procedure.conditions.map(conditionDraft),
    stations: procedure.stations,
    steps: procedure.steps.map(({ text, caution }) => ({ text, caution: caution ?? '' })),
    sensorAt: procedure.sensorAt ?? { ahead: '', left: '', up: '' },
    kept: {
      fictional: procedure.fictional,
      decisionRule: procedure.decisionRule,
      body: target.body,
      ...(pauseLimitMin === undefined ? {} : { pauseLimitMin }),
      ...(bay === undefined ? {} : { bay }),
    },
  };
}

/** The list with the item at `index` replaced. */
export function replaced<T>(list: readonly T[], index: number, item: T): readonly T[] {
  return list.with(index, item);
}

/** A list's items with their places as keys, for lists whose every text is being typed. */
export function placed<T>(
  list: readonly T[],
): readonly { readonly key: string; readonly item: T; readonly index: number }[] {
  return list.map((item, index) => ({ key: `at${index}`, item, index }));
}

/** The draft with one station changed. */
export function withStation(draft: ProcedureDraft, index: number, station: ProcedureStation): ProcedureDraft {
  return { ...draft, stations: replaced(draft.stations, index, station) };
}

/** A name for one more of its like: `station3` when two are there. */
export function freeName(base: string, taken: readonly string[]): string {
  for (let count = taken.length + 1; ; count += 1) {
    if (!taken.includes(`${base}${count}`)) return `${base}${count}`;
  }
}

/** One more station: a slide keeps all of the stand before it but the side; a reposition starts empty. */
export function withOneMoreStation(
  draft: ProcedureDraft,
  kind: ProcedureStation['kind'],
  name: string,
): ProcedureDraft {
  const id = freeName(
    'station',
    draft.stations.map((each) => each.id),
  );
  const before = draft.stations.findLast((each) => each.kind === 'reposition');
  const station =
    kind === 'slide' && before !== undefined
      ? { ...before, id, name, kind, left: { ...before.left, value: '' }, capturePrompt: '' }
      : emptyStation(id, name);
  return { ...draft, stations: [...draft.stations, station] };
}

/** What a slide takes from the stand it slides on: everything but its side, tolerances included as they were. */
const SHARED = ['ahead', 'up', 'yaw', 'pitch', 'roll'] as const satisfies readonly Coordinate[];

/** Where a placed station is changed, the slides that follow it keep to it. */
export function slidesFollow(stations: readonly ProcedureStation[]): readonly ProcedureStation[] {
  let base: ProcedureStation | undefined;
  return stations.map((station) => {
    if (station.kind === 'reposition') base = station;
    const stand = base;
    if (station.kind === 'reposition' || stand === undefined) return station;
    const pose = Object.fromEntries(
      SHARED.map((each) => [each, { ...station[each], value: stand[each].value, from: stand[each].from }]),
    );
    return { ...station, ...pose, place: stand.place, left: { ...station.left, from: stand.left.from } };
  });
}
