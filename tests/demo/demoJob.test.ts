import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { assess, objections } from '../../core/job/assess.ts';
import { solveAll } from '../../core/job/solve.ts';
import { checkProcedure, isReviewed } from '../../core/procedure/index.ts';
import { checkVin } from '../../core/vehicle/vin.ts';
import { wordFaults } from '../../core/words/index.ts';
import type { DemoStep } from '../../electron/cli/demoScript.ts';
import { LAST } from './demoJob.ts';
import { foldScript } from './foldScript.ts';
import { answersAtShows, demoShop, shippedJob } from './solveDemo.ts';
import { SCRIPTS, scriptFile, scriptText } from './writeDemoJob.ts';

const shop = demoShop();
const script = shippedJob();

function every<D extends DemoStep['do']>(kind: D): readonly Extract<DemoStep, { do: D }>[] {
  return script.steps.filter((step): step is Extract<DemoStep, { do: D }> => step.do === kind);
}

describe('the demo shop', () => {
  test('its procedures have no fault, are reviewed, fictional, and not on a real maker', () => {
    expect(shop.procedures.map((procedure) => procedure.sensor)).toEqual(['forwardCamera', 'frontRadar']);
    for (const procedure of shop.procedures) {
      expect(checkProcedure(procedure)).toEqual([]);
      expect(isReviewed(procedure)).toBe(true);
      expect(procedure.fictional).toBe(true);
      expect(procedure.source.document).toMatch(/\(invented\)/);
    }
  });

  test('three bays, people for each role, traced equipment', () => {
    expect(shop.demo).toBe(true);
    expect(shop.bays).toHaveLength(3);
    const roles = new Set(shop.people.flatMap((person) => person.roles));
    expect([...roles].sort()).toEqual(['office', 'owner', 'signer', 'technician']);
    const kinds = new Set(shop.instruments.map((instrument) => instrument.kind));
    for (const kind of ['tape', 'plumbBob', 'level', 'inclinometer', 'rule', 'luxMeter'] as const) {
      expect(kinds.has(kind)).toBe(true);
    }
    for (const each of [...shop.instruments, ...shop.fixtures, ...shop.targets, ...shop.sideArms]) {
      expect(each.dueOn > '2026-12-31').toBe(true);
      expect(each.certificate).not.toBe('');
    }
  });

  test('nothing a person reads in it has a banned word or a signed number', () => {
    const spoken = shop.procedures.flatMap((procedure) => [
      procedure.title,
      ...procedure.steps.flatMap((step) => [step.text, step.caution ?? '']),
      ...procedure.conditions.flatMap((condition) => [condition.text, condition.caution ?? '']),
      ...procedure.stations.flatMap((station) => [station.name, station.capturePrompt]),
      ...procedure.inputs.map((input) => input.label),
    ]);
    const names = [...shop.instruments, ...shop.fixtures, ...shop.targets, ...shop.sideArms].map(
      (each) => each.name,
    );
    for (const text of [...spoken, ...names]) expect(wordFaults(text)).toEqual([]);
  });
});

describe('the demo job', () => {
  test.each(Object.entries(SCRIPTS))('%s is what the generator writes', (name, made) => {
    expect(readFileSync(scriptFile(name), 'utf8')).toBe(scriptText(made()));
  });

  test('is done by people and in a bay of the shop', () => {
    const has = (id: string, role: 'technician' | 'signer'): boolean =>
      shop.people.some((person) => person.id === id && person.roles.includes(role));
    expect(has(script.person, 'technician')).toBe(true);
    expect(has(script.signer, 'signer')).toBe(true);
    expect(shop.bays.map((bay) => bay.code)).toContain(script.bay);
  });

  test('has a fictitious VIN that fits', () => {
    const vin = every('field').find((step) => step.field === 'intake.vin')?.text ?? '';
    expect(vin).toContain('DEM0');
    expect(checkVin(vin)).toMatchObject({ standing: 'fits', checkDigit: 'right', modelYears: [2026] });
  });

  test('needs at most 22 readings for datum and placement', () => {
    const moved = script.steps.findIndex((step) => step.do === 'moved');
    const untilMove = script.steps.slice(0, moved).filter((step) => step.do === 'reading');
    expect(
      untilMove.filter((step) => step.do === 'reading' && !step.quantity.startsWith('floor.')),
    ).toHaveLength(22);
  });

  test('has words without banned ones, apart from the answers that are codes', () => {
    for (const step of every('field')) expect(wordFaults(step.text)).toEqual([]);
    for (const step of every('moved')) expect(wordFaults(step.words)).toEqual([]);
  });
});

describe('what its readings say', () => {
  const [first, moved, last] = answersAtShows(script, shop);
  if (first === undefined || moved === undefined || last === undefined) throw new Error('three shows');
  const found = (answer: typeof first, station: string, coordinate: string) => {
    const finding = answer.stations
      .find((each) => each.station === station)
      ?.coordinates.find((each) => each.coordinate === coordinate);
    if (finding === undefined) throw new Error(`${station} ${coordinate}`);
    return finding;
  };

  test('the first stand is out by about 12 mm, 8 mm and 0.6 degrees, and moves are given', () => {
    expect(first.worst).toBe('outside');
    expect(Math.abs(found(first, 'centre', 'ahead').deviation - 12)).toBeLessThan(1);
    expect(Math.abs(found(first, 'centre', 'left').deviation - 8)).toBeLessThan(1);
    expect(Math.abs((found(first, 'centre', 'yaw').deviation * 180) / Math.PI - 0.6)).toBeLessThan(0.05);
    // Levelling carries the target 5 mm back to the car's right: the 2.5 mm that are left may stand, so no shift is asked for.
    expect(first.moves.map((move) => move.kind)).toEqual(['turn', 'roll', 'raise', 'lean', 'level']);
    const sideways = first.moves.reduce((sum, move) => sum + move.predictedEffect.left, 0);
    expect(Math.abs(found(first, 'centre', 'left').deviation + sideways)).toBeLessThan(3.3);
  });

  test('after the moves every coordinate of all three stations is proven and the control agrees', () => {
    expect(moved.worst).toBe('proven');
    expect(last.worst).toBe('proven');
    expect(last.stations.map((station) => [station.station, station.basis, station.worst])).toEqual([
      ['centre', 'found', 'proven'],
      ['carLeft550', 'found', 'proven'],
      ['carRight550', 'found', 'proven'],
    ]);
    expect(last.controls.map((control) => control.agrees)).toEqual([true]);
    expect(last.missing).toEqual([]);
    for (const answer of [first, moved, last]) {
      expect(answer.globalTest?.passed).toBe(true);
      expect(answer.suspects).toEqual([]);
    }
  });

  test('the floor has the slope it was given', () => {
    const slopes = [last.vehicle?.slopeAheadRad ?? 0, last.vehicle?.slopeLeftRad ?? 0];
    expect(Math.hypot(...slopes) * 100).toBeGreaterThan(0.36);
    expect(Math.hypot(...slopes) * 100).toBeLessThan(0.44);
  });

  test('what is found of the last stand differs from the truth by less than U', () => {
    const truth = { ahead: LAST.ahead, left: LAST.left, up: LAST.up };
    for (const coordinate of ['ahead', 'left', 'up'] as const) {
      const finding = found(last, 'centre', coordinate);
      expect(Math.abs(finding.deviation - truth[coordinate])).toBeLessThan(finding.U);
    }
    for (const coordinate of ['yaw', 'pitch', 'roll'] as const) {
      const finding = found(last, 'centre', coordinate);
      expect(Math.abs(finding.deviation - (LAST[coordinate] * Math.PI) / 180)).toBeLessThan(finding.U);
    }
  });
});

describe('whether it may be signed', () => {
  test('nothing is missing and nothing stops it at the end', () => {
    const job = foldScript(script, shop);
    const assessment = assess(job, solveAll(job));
    expect(assessment.missing).toEqual([]);
    expect(assessment.stops).toEqual([]);
    expect(assessment.kind).toBe('calibrated');
  });

  test('the stopped job may only be signed as not calibrated, and then nothing is missing', () => {
    const stopped = shippedJob('demo-job-stopped.json');
    const job = foldScript(stopped, shop);
    const assessment = assess(job, solveAll(job));
    expect(assessment.stops.map((finding) => finding.key)).toContain('prechecks.adhesive');
    expect(assessment.kind).toBe('notCalibrated');
    expect(objections(assessment, 'notCalibrated')).toEqual([]);
    expect(objections(assessment, 'calibrated')).not.toEqual([]);
  });

  test('before the moves it may not be signed as calibrated', () => {
    const moved = script.steps.findIndex((step) => step.do === 'moved');
    const job = foldScript(script, shop, moved);
    expect(assess(job, solveAll(job)).kind).not.toBe('calibrated');
  });
});
