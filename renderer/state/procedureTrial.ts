/**
 * A procedure tried on one car while it is written: what each text comes to, and the stations that can be drawn. Inputs
 * nobody has tried stand in the middle of their limits. Pure.
 */
import { type Coordinate, isAngleCoordinate } from '../../core/frames.ts';
import type { StationRequirement } from '../../core/placement/requirement.ts';
import type { InputValues } from '../../core/procedure/evaluate.ts';
import type { Procedure } from '../../core/procedure/index.ts';
import { resolveProcedure } from '../../core/procedure/index.ts';
import { angleOf, lengthOf } from '../../core/procedure/measure.ts';
import { quantityValue, readQuantityText } from '../../core/procedure/quantityText.ts';
import { formatDeg } from '../../core/units.ts';
import { say } from '../../core/words/index.ts';
import { lengthText } from '../text/lengthText.ts';
import { countedWords } from '../text/procedureWords.ts';
import type { ProcedureDraft } from './procedureDraft.ts';
import { turnOf } from './signedText.ts';

type Quantity = 'length' | 'angle';
type Station = Procedure['stations'][number];

/** A text's value in mm or rad, undefined where it has none yet. */
function textValue(text: string, quantity: Quantity, inputs: InputValues): number | undefined {
  const read = readQuantityText(text, quantity);
  const value = read.ok ? quantityValue(read.value, quantity, inputs) : read;
  return value.ok ? value.value : undefined;
}

/** Values of the inputs by name, mm and rad: what was typed to try, else the middle between the limits. */
export function trialInputs(
  inputs: Procedure['inputs'],
  typed: Readonly<Record<string, string>>,
): ReadonlyMap<string, number> {
  const none: InputValues = new Map();
  return new Map(
    inputs.flatMap(({ name, quantity, least, most }): readonly (readonly [string, number])[] => {
      const tried = textValue(typed[name] ?? '', quantity, none);
      if (tried !== undefined) return [[name, tried]];
      const low = textValue(least, quantity, none);
      const high = textValue(most, quantity, none);
      return low === undefined || high === undefined ? [] : [[name, (low + high) / 2]];
    }),
  );
}

function measuresOf(inputs: Procedure['inputs'], trial: ReadonlyMap<string, number>): InputValues {
  return new Map(
    inputs.flatMap(({ name, quantity }) => {
      const value = trial.get(name);
      return value === undefined ? [] : [[name, quantity === 'length' ? lengthOf(value) : angleOf(value)]];
    }),
  );
}

const amount = (quantity: Quantity, value: number): string =>
  quantity === 'length' ? lengthText(Math.abs(value), 1) : formatDeg(Math.abs(value), 2);

/** A text that is not its own result: a sum, a name, another unit. */
const PLAIN_RESULT = /^\d+([.,]\d)? ?(mm|deg|°)$|^0$/;

/** What a coordinate's text comes to for the tried car, in words; empty where it says so itself or has no value. */
export function liveResult(
  station: Station,
  coordinate: Coordinate,
  inputs: Procedure['inputs'],
  trial: ReadonlyMap<string, number>,
): string {
  const { value: text } = station[coordinate];
  const quantity: Quantity = isAngleCoordinate(coordinate) ? 'angle' : 'length';
  const turn = coordinate === 'yaw' ? turnOf(text, station.place) : undefined;
  const written = turn === undefined ? text : turn.against ? `-(${turn.size})` : turn.size;
  if (PLAIN_RESULT.test(written.replace(/^-/, ''))) return '';
  const value = textValue(written, quantity, measuresOf(inputs, trial));
  if (value === undefined) return '';
  const size = amount(quantity, value);
  const way = /[1-9]/.test(size) ? countedWords(coordinate, value < 0, station.place) : '';
  return say('procedureForm.result', { value: `${size} ${way}`.trim() });
}

/** A document around one station, with nothing else in it that could have a fault. */
function aroundStation(draft: ProcedureDraft, station: Station): Procedure {
  return {
    format: 'datumline-procedure-1',
    id: 'trial',
    edition: 1,
    title: 'trial',
    fictional: true,
    sensor: draft.sensor,
    applicability: { make: '1', models: ['1'], fromYear: 2000, toYear: null },
    inputs: draft.inputs,
    conditions: [],
    target: { kind: draft.target.kind, widthMm: 1, heightMm: 1, name: '1' },
    sensorAt: null,
    stations: [station],
    steps: [],
    decisionRule: null,
    source: {
      document: '1',
      section: '1',
      readOn: '2000-01-01',
      enteredBy: '1',
      reviewedBy: null,
      reviewWay: 'unreviewed',
    },
  };
}

/** The stations whose pose can be told already, each by itself; a tolerance without its limit stops no drawing. */
export function drawnStations(
  draft: ProcedureDraft,
  trial: ReadonlyMap<string, number>,
): readonly StationRequirement[] {
  return draft.stations.flatMap((station) => {
    const { radial: _radial, ...alone } = station;
    const bare = (each: Coordinate): Record<string, unknown> => ({
      ...station[each],
      tolerance: { kind: 'notStated', workingLimit: null },
    });
    const posed = {
      ...alone,
      kind: 'reposition' as const,
      ahead: bare('ahead'),
      left: bare('left'),
      up: bare('up'),
      yaw: bare('yaw'),
      pitch: bare('pitch'),
      roll: bare('roll'),
    } as Station;
    const resolved = resolveProcedure(aroundStation(draft, posed), trial);
    return resolved.ok ? resolved.value.stations : [];
  });
}
