/** Amounts as a hand makes them: rounded to what can be set, counted in turns of the screw, held against the ends. */
import { say } from '../../words/index.ts';
import { SEEN_MM, type Travel } from './fixtureKinematics.ts';

/** A change rounded to the part's step; zero when it is below what can be set and seen. mm, signed as given. */
export function settable(changeMm: number, travel: Travel | undefined): number {
  if (travel === undefined) return Math.abs(changeMm) < SEEN_MM ? 0 : changeMm;
  if (travel.stepMm <= 0) return changeMm;
  return Math.round(changeMm / travel.stepMm) * travel.stepMm;
}

/** How far a position lies beyond the nearer end of a part's travel, mm, never negative; zero without known ends. */
export function beyondMm(positionMm: number, travel: Travel | undefined): number {
  if (travel === undefined) return 0;
  return Math.max(0, travel.leastMm - positionMm, positionMm - travel.mostMm);
}

/** Turns of the screw for a change; undefined where a hand pushes. */
export function turnsFor(changeMm: number, travel: Travel | undefined): number | undefined {
  const per = travel?.perTurnMm;
  return per === undefined || per <= 0 ? undefined : Math.abs(changeMm) / per;
}

const FRACTIONS = ['', '1/4', '1/2', '3/4'] as const;
/** The least that is told of a turn. */
const EIGHTH = 1 / 8;

/**
 * Turns as a person counts them, to the nearest quarter; less than half a quarter is told as an eighth.
 * `turnsText(1.53)` gives `1 1/2 turns`, `turnsText(0.25)` gives `1/4 turn`.
 */
export function turnsText(turns: number): string {
  const quarters = Math.round(turns * 4);
  if (quarters === 0) return turns >= EIGHTH / 2 ? say('turns.one', { count: '1/8' }) : say('turns.touch');
  const whole = Math.floor(quarters / 4);
  const part = FRACTIONS[quarters % 4] ?? '';
  const count = [whole === 0 ? '' : String(whole), part].filter((each) => each !== '').join(' ');
  return say(quarters > 4 ? 'turns.many' : 'turns.one', { count });
}
