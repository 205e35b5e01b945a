/** Every demo drawing by name: plans, side views and tolerance bars. */
import { type BarRequest, barScene } from '../../../core/drawing/bars.ts';
import { elevationScene } from '../../../core/drawing/elevation.ts';
import type { ElevationRequest } from '../../../core/drawing/elevationModel.ts';
import { planScene } from '../../../core/drawing/plan.ts';
import type { Scene } from '../../../core/drawing/scene.ts';
import { defaultRecipe } from '../../../core/placement/recipe.ts';
import { CAMERA_STATIONS, DEMO_PLANS } from './demoPlans.ts';

const plan = (name: keyof typeof DEMO_PLANS) => {
  const request = DEMO_PLANS[name];
  if (request === undefined) throw new Error(`no demo plan ${name}`);
  return request;
};

const SIDE = { widthPt: 700, heightPt: 260 };
const A4_SIDE = { widthPt: (180 * 72) / 25.4, heightPt: (66 * 72) / 25.4 };
const floorReadings = defaultRecipe({ stations: CAMERA_STATIONS }).filter(
  (reading) => reading.stage === 'bay' || reading.stage === 'placement',
);

/** Side views: typical, with a slope only, with a levelled floor that dips under the fixture. */
export const DEMO_ELEVATIONS: Readonly<Record<string, ElevationRequest>> = {
  nothing: { ...plan('nothing'), sheet: SIDE, recipe: floorReadings },
  turn: { ...plan('turn'), sheet: SIDE, recipe: floorReadings },
  dip: {
    ...plan('near'),
    sheet: SIDE,
    recipe: floorReadings,
    floor: [
      { aheadMm: 0, riseMm: 0 },
      { aheadMm: 2712, riseMm: 11.4 },
      { aheadMm: 5160, riseMm: 6.2 },
    ],
  },
  paper: { ...plan('paper'), sheet: A4_SIDE },
  rear: { ...plan('rear'), sheet: SIDE },
};

const BAR: Omit<BarRequest, 'found' | 'guard' | 'expanded' | 'verdict' | 'description'> = {
  sheet: { widthPt: 288, heightPt: 56 },
  textPt: 14,
  lower: -5,
  upper: 5,
  lowerText: '5 mm',
  upperText: '5 mm',
};

/** Bars: proven, within, outside, far beyond the scale, one-sided. */
export const DEMO_BARS: Readonly<Record<string, BarRequest>> = {
  proven: {
    ...BAR,
    found: 1.2,
    guard: 1.8,
    expanded: 2.2,
    verdict: 'proven',
    description: '1.2 mm away from the car',
  },
  within: {
    ...BAR,
    found: -4,
    guard: 2.9,
    expanded: 3.6,
    verdict: 'notProven',
    description: '4.0 mm toward the car',
  },
  outside: {
    ...BAR,
    found: 7,
    guard: 1.5,
    expanded: 1.8,
    verdict: 'outside',
    description: '7.0 mm away from the car',
  },
  beyond: {
    ...BAR,
    found: -60,
    guard: 1.5,
    expanded: 1.8,
    verdict: 'outside',
    description: '60.0 mm toward the car',
  },
};

/** Composes all demo scenes anew. */
export function demoScenes(): Readonly<Record<string, Scene>> {
  const named = <T>(prefix: string, requests: Readonly<Record<string, T>>, compose: (request: T) => Scene) =>
    Object.entries(requests).map(([name, request]) => [`${prefix}-${name}`, compose(request)] as const);
  return Object.fromEntries([
    ...named('plan', DEMO_PLANS, planScene),
    ...named('side', DEMO_ELEVATIONS, elevationScene),
    ...named('bar', DEMO_BARS, barScene),
  ]);
}
