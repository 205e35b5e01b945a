import { describe, expect, test } from 'vitest';
import { COORDINATES } from '../../../core/frames.ts';
import type { Procedure, ProcedureStation } from '../../../core/procedure/index.ts';
import { invariant } from '../../../core/result.ts';
import { wordFaults } from '../../../core/words/index.ts';
import { draftOf, emptyDraft } from '../../../renderer/state/procedureDraft.ts';
import { drawnStations, liveResult, trialInputs } from '../../../renderer/state/procedureTrial.ts';
import { procedureDifferences, procedureValues } from '../../../renderer/state/procedureValues.ts';
import {
  coordinateValueText,
  TOLERANCE_KINDS,
  toleranceKind,
  toleranceText,
  withToleranceKind,
} from '../../../renderer/text/procedureWords.ts';
import { invented } from '../../core/procedure/invented.ts';
import { shop } from '../demoHeld.ts';

const [centre, slide] = invented.stations;
invariant(centre !== undefined && slide !== undefined, 'the invented procedure has two stations');
const textAt = (procedure: Procedure, where: string): string | undefined =>
  procedureValues(procedure).find((each) => each.where === where)?.text;

describe('values in words', () => {
  test.each([...shop.procedures, invented])('$id is told whole, once, in plain words', (procedure) => {
    const lines = procedureValues(procedure);
    expect(new Set(lines.map((each) => each.where)).size).toBe(lines.length);
    const own = procedure.stations.map((each) => each.name);
    for (const { label, text } of lines) {
      expect(label).not.toMatch(/^[a-z][A-Za-z]*\.|[{}]|undefined/);
      expect(text).not.toMatch(/[{}]|undefined|NaN/);
      if (!own.some((name) => label.includes(name) && /left|right/i.test(name))) {
        expect(wordFaults(label), label).toEqual([]);
      }
    }
    for (const station of procedure.stations) {
      for (const coordinate of COORDINATES) {
        expect(lines.some((each) => each.where === `stations.${station.id}.${coordinate}`)).toBe(true);
      }
    }
  });

  test('a side and a turn are words, never signs', () => {
    const aside: ProcedureStation = {
      ...centre,
      left: { ...centre.left, value: '-(aim / 2)' },
      yaw: { ...centre.yaw, value: '180 deg - (12 deg)' },
      ahead: { ...centre.ahead, value: '-3 m', from: 'rearAxle' },
    };
    expect(coordinateValueText(aside, 'left')).toBe(
      "aim / 2 to the car's right; measured from the thrust line",
    );
    expect(coordinateValueText(aside, 'yaw')).toBe(
      "12 deg car's-left end away from the car; the thrust line",
    );
    expect(coordinateValueText(aside, 'ahead')).toBe('3 m behind it; measured from the rear axle');
    expect(coordinateValueText(centre, 'yaw')).toBe('square to the thrust line, facing the car');
  });

  test('limits say the way they permit', () => {
    expect(toleranceText(centre.left.tolerance, 'left', 'ahead')).toBe(
      "5 mm to the car's right, 1/4 in to the car's left",
    );
    expect(toleranceText(centre.pitch.tolerance, 'pitch', 'ahead')).toBe(
      '1 deg top away from the car, no limit the other way',
    );
    expect(toleranceText(centre.up.tolerance, 'up', 'ahead')).toBe(
      "not stated by the maker; shop's own limit 5 mm",
    );
  });
});

describe('the kind of a tolerance', () => {
  test.each(TOLERANCE_KINDS)('%s is what it was made', (kind) => {
    expect(toleranceKind(withToleranceKind(centre, 'up', kind), 'up')).toBe(kind);
  });

  test('a limit already typed goes along, a circle of others stays', () => {
    const unequal = withToleranceKind(centre, 'ahead', 'unequal');
    expect(unequal.ahead.tolerance).toEqual({ kind: 'unequal', lower: '-10 mm', upper: '10 mm' });
    expect(withToleranceKind(unequal, 'ahead', 'oneSided').ahead.tolerance).toEqual({
      kind: 'upperOnly',
      upper: '10 mm',
    });
    const free = withToleranceKind(slide, 'roll', 'free');
    expect(free.free).toEqual(['pitch', 'roll']);
    expect(withToleranceKind(free, 'pitch', 'twoSided').free).toEqual(['roll']);
  });
});

describe('two editions', () => {
  test('differ in what differs and in nothing else', () => {
    const changed: Procedure = {
      ...invented,
      edition: 2,
      stations: [{ ...centre, up: { ...centre.up, value: '1350 mm' } }, slide],
      conditions: invented.conditions.slice(1),
      steps: [{ text: 'Ignition on', caution: null }],
    };
    const lines = procedureDifferences(invented, changed);
    expect(lines.map((each) => each.where)).toEqual(['stations.centre.up', 'steps.0', 'conditions.doors']);
    expect(lines[0]?.before).toMatch(/^53 1\/8 in/);
    expect(lines[0]?.after).toMatch(/^1350 mm/);
    expect(lines[1]?.before).toBeUndefined();
    expect(lines[2]?.after).toBeUndefined();
  });

  test('a review changes no value', () => {
    const reviewedElsewhere: Procedure = {
      ...invented,
      source: { ...invented.source, reviewedBy: null, reviewWay: 'unreviewed' },
    };
    expect(procedureDifferences(invented, reviewedElsewhere)).toEqual([]);
  });

  test('other years, another page of the source and another board are seen', () => {
    const other: Procedure = {
      ...invented,
      applicability: { ...invented.applicability, toYear: 2026 },
      source: { ...invented.source, section: '9' },
      target: { ...invented.target, widthMm: 1201 },
    };
    expect(procedureDifferences(invented, other).map((each) => each.where)).toEqual([
      'applicability.fromYear',
      'source.document',
      'target.width',
    ]);
    expect(textAt(other, 'target.width')).toBe('1201 \u00d7 800 mm');
  });
});

describe('tried on one car', () => {
  const { inputs } = invented;

  test('an input nobody tried stands in the middle of its limits', () => {
    expect(trialInputs(inputs, {}).get('reach')).toBeCloseTo(900, 9);
    expect(trialInputs(inputs, { reach: '870 mm' }).get('reach')).toBeCloseTo(870, 9);
    expect(trialInputs(inputs, { reach: 'eight' }).get('reach')).toBeCloseTo(900, 9);
    expect(
      trialInputs([{ name: 'a', label: 'A', quantity: 'length', least: '', most: '1 m' }], {}).size,
    ).toBe(0);
  });

  test('what a text comes to is told where the text does not say it itself', () => {
    const trial = trialInputs(inputs, { reach: '870 mm' });
    expect(liveResult(centre, 'ahead', inputs, trial)).toBe('Gives 2370.0 mm ahead of it');
    expect(liveResult(centre, 'up', inputs, trial)).toBe('Gives 1349.4 mm above it');
    expect(liveResult({ ...centre, up: { ...centre.up, value: '1350 mm' } }, 'up', inputs, trial)).toBe('');
    expect(liveResult({ ...centre, up: { ...centre.up, value: 'reach +' } }, 'up', inputs, trial)).toBe('');
    const right = { ...centre, left: { ...centre.left, value: '-(reach / 2)' } };
    expect(liveResult(right, 'left', inputs, trial)).toBe("Gives 435.0 mm to the car's right");
  });

  test('what can be drawn is drawn, and what cannot is left out', () => {
    const draft = draftOf(invented);
    const trial = trialInputs(inputs, { reach: '870 mm' });
    const drawn = drawnStations(draft, trial);
    expect(drawn.map((each) => each.id)).toEqual(['centre', 'carLeft']);
    expect(drawn[0]?.ahead.value).toBeCloseTo(2370, 6);
    expect(drawn[1]?.left.value).toBeCloseTo(550, 6);
    const half = { ...draft, stations: [{ ...centre, up: { ...centre.up, value: 'unknown' } }, slide] };
    expect(drawnStations(half, trial).map((each) => each.id)).toEqual(['carLeft']);
    expect(drawnStations(emptyDraft('frontRadar', '2026-11-25', 'One'), new Map())).toEqual([]);
  });
});
