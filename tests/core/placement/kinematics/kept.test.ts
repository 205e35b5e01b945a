import { describe, expect, test } from 'vitest';
import type { MoveKind } from '../../../../core/placement/instruction.ts';
import { keptBy, STAYS_WITHIN_MM } from '../../../../core/placement/kinematics/kept.ts';

const DEG = Math.PI / 180;
const none = { ahead: 0, left: 0, up: 0, yaw: 0, pitch: 0, roll: 0 };
const part = { leastMm: -20, mostMm: 20, stepMm: 0.1 };
const tilt = (where: 'feet' | 'head') => ({ ...part, where, axisMm: 0, screwAtMm: 300 });
const kept = (
  kind: MoveKind,
  effect: Partial<typeof none> = {},
  kinematics: Parameters<typeof keptBy>[0]['kinematics'] = undefined,
  pastEnd = false,
) => keptBy({ kind, kinematics, pastEnd, effect: { ...none, ...effect }, halfBarMm: 1000 });

describe('what a move leaves as it was', () => {
  test('a base that moves leaves nothing', () => {
    for (const kind of ['turn', 'roll', 'shift'] as const) expect(kept(kind)).toEqual([]);
  });
  test('a turn adjuster on the stand leaves the height; past its end the base is turned', () => {
    const turn = { ...part, pivot: { outMm: 0, acrossMm: 0 } };
    expect(kept('turn', {}, { turn })).toEqual(['height', 'slide']);
    expect(kept('turn', {}, { turn }, true)).toEqual([]);
  });
  test('an upright mast leaves the plan, one that leans so far that the bar travels does not', () => {
    expect(kept('raise', { up: 40 })).toEqual(['plan', 'slide']);
    // 40 mm up a mast that leans 0.2 degrees travel 0.14 mm, at 0.3 degrees 0.21 mm.
    expect(kept('raise', { up: 40, ahead: 40 * Math.sin(0.2 * DEG) })).toEqual(['plan', 'slide']);
    expect(kept('raise', { up: 40, ahead: 40 * Math.sin(0.3 * DEG) })).toEqual([]);
    expect(STAYS_WITHIN_MM).toBe(0.2);
  });
  test('feet carry the bar sideways, a head does not', () => {
    expect(kept('lean', {}, { lean: tilt('feet') })).toEqual([]);
    expect(kept('lean', {})).toEqual([]);
    expect(kept('lean', {}, { lean: tilt('head') })).toEqual(['plan', 'slide']);
    expect(kept('level', {}, { level: tilt('feet') })).toEqual([]);
  });
  test('a level about the bar centre by 1 degree draws an end in by 0.15 mm, by 1.2 degrees by 0.22', () => {
    expect(kept('level', { roll: 1 * DEG }, { level: tilt('head') })).toEqual(['plan', 'slide']);
    expect(kept('level', { roll: -1.2 * DEG }, { level: tilt('head') })).toEqual([]);
  });
  test('setting a slide leaves all the rest', () => {
    expect(kept('setSlide')).toEqual(['plan', 'height', 'tilt']);
  });
});
