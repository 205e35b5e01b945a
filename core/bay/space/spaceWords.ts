/** What the space check says, as word keys with their values: what is tightest, what collides, where to park. */
import { formatLength, type LengthUnit } from '../../units.ts';
import type { SlotValues } from '../../words/say.ts';
import type { SpaceFit } from './fit.ts';
import type { BestParking } from './parking.ts';

/** A sentence of the catalogue that is still to be said. */
export interface SpaceSentence {
  readonly key: `space.${'fits' | 'collides' | 'park' | 'nowhere' | 'unsure' | 'inTheCar'}`;
  readonly values: SlotValues;
}

/** The tightest place when all fits; else every part that lacks room, worst first. */
export function fitSentences(fit: SpaceFit, unit: LengthUnit = 'mm'): readonly SpaceSentence[] {
  const length = (mm: number): string => formatLength(mm, 0, unit);
  const inTheCar = fit.inTheCar.map(
    ({ part }): SpaceSentence => ({ key: 'space.inTheCar', values: { part } }),
  );
  const lacking = fit.findings
    .filter((finding) => finding.spareMm < 0)
    .map(
      ({ part, against, spareMm }): SpaceSentence => ({
        key: 'space.collides',
        values: { part, against, lack: length(-spareMm) },
      }),
    );
  const tightest = fit.findings[0];
  if (!fit.fits || tightest === undefined) return [...inTheCar, ...lacking];
  const { part, against, clearanceMm } = tightest;
  return [{ key: 'space.fits', values: { part, against, gap: length(clearanceMm) } }];
}

/** Where to park, or that it fits nowhere and by how much; what is proven and what is only not found are told apart. */
export function parkingSentence(best: BestParking, unit: LengthUnit = 'mm'): SpaceSentence {
  const length = (mm: number): string => formatLength(mm, 0, unit);
  const clash = best.fit.inTheCar[0];
  if (clash !== undefined) return { key: 'space.inTheCar', values: { part: clash.part } };
  if (best.fitsSomewhere) return { key: 'space.park', values: { spare: length(best.fit.spareMm) } };
  if (best.mostSpareMm < 0) return { key: 'space.nowhere', values: { lack: length(-best.mostSpareMm) } };
  return { key: 'space.unsure', values: { lack: length(-best.fit.spareMm) } };
}
