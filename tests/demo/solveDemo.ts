/** The demo job's readings brought to the solver without a service: for tests of the made-up data alone. */
import { readFileSync } from 'node:fs';
import { parseQuantity } from '../../core/entry/index.ts';
import { readingEntry } from '../../core/job/facts.ts';
import { type Shop, shopSchema } from '../../core/job/shop.ts';
import { placementEquipment } from '../../core/job/solve.ts';
import type { PlacementAnswer } from '../../core/placement/placementAnswer.ts';
import type { PlacementReading, TiltDirection } from '../../core/placement/placementReading.ts';
import { defaultRecipe, specOf } from '../../core/placement/recipe.ts';
import { solvePlacement } from '../../core/placement/solvePlacement.ts';
import { resolveProcedure } from '../../core/procedure/index.ts';
import { type DemoScript, demoScriptSchema } from '../../electron/cli/demoScript.ts';

/** The demo shop as shipped. */
export function demoShop(): Shop {
  return shopSchema.parse(readJson('shop.json'));
}

/** A job script as shipped. */
export function shippedJob(name = 'demo-job.json'): DemoScript {
  return demoScriptSchema.parse(readJson(name));
}

function readJson(name: string): unknown {
  return JSON.parse(readFileSync(new URL(`../../assets/demo/${name}`, import.meta.url), 'utf8'));
}

const DIRECTIONS: readonly TiltDirection[] = ['towardCar', 'awayFromCar', 'carLeftLow', 'carRightLow'];

/** The answer at each `show` step of a script, or at the first few of them. */
export function answersAtShows(
  script: DemoScript,
  shop: Shop,
  shows = Number.POSITIVE_INFINITY,
): readonly PlacementAnswer[] {
  const sensor = script.steps.find((step) => step.do === 'sensor' && step.procedure !== null);
  if (sensor?.do !== 'sensor') throw new Error('no sensor is calibrated here');
  const procedure = shop.procedures.find((each) => each.id === sensor.procedure);
  const fixture = shop.fixtures.find((each) => each.id === sensor.fixture);
  const target = shop.targets.find((each) => each.id === sensor.target);
  if (procedure === undefined || fixture === undefined || target === undefined)
    throw new Error('not in the shop');
  const resolved = resolveProcedure(procedure, new Map());
  if (!resolved.ok) throw new Error(JSON.stringify(resolved.error));
  const { sideArms, instruments } = shop;
  const equipment = placementEquipment({ fixture, target, sideArms, instruments, work: sensor.work });
  const recipe = defaultRecipe({ stations: resolved.value.stations });
  const readings: PlacementReading[] = [];
  const answers: PlacementAnswer[] = [];
  const setUps = { car: 1, fixture: 1 };
  for (const step of script.steps) {
    if (step.do === 'moved' && step.body === 'fixture') setUps.fixture += 1;
    if (step.do === 'reading') {
      const slot = {
        id: step.quantity,
        purpose: step.purpose,
        ...(step.station === null ? {} : { station: step.station }),
      };
      const spec = specOf(recipe, slot);
      if (spec === undefined) throw new Error(`${step.quantity} is not in the recipe`);
      const instrument = instruments.find((each) => each.kind === spec.instrument);
      const typed = parseQuantity(step.text, readingEntry(spec, instrument));
      if (!typed.ok) throw new Error(`${step.text}: ${typed.error.key}`);
      const direction = DIRECTIONS.find((each) => each === step.direction);
      readings.push({
        ...slot,
        ref: `r${readings.length}`,
        value: typed.value.value,
        ...(direction === undefined ? {} : { direction }),
        ...(instrument === undefined ? {} : { instrument: instrument.id }),
        carSetUp: setUps.car,
        fixtureSetUp: setUps.fixture,
      });
    }
    if (step.do === 'show') {
      const faceHeight = script.steps.find(
        (each) => each.do === 'field' && each.field === 'datum.faceHeight',
      );
      const typed = parseQuantity(faceHeight?.do === 'field' ? faceHeight.text : '', { kind: 'length' });
      const answer = solvePlacement({
        readings,
        setUps: { ...setUps },
        equipment,
        stations: resolved.value.stations,
        decisionRule: shop.decisionRule,
        ...(typed.ok ? { bodyFaceHeight: { mm: typed.value.value, uMm: 5 } } : {}),
        ...(resolved.value.sensor === undefined ? {} : { sensor: resolved.value.sensor }),
      });
      if (!answer.ok) throw new Error(JSON.stringify(answer.error));
      answers.push(answer.value);
      if (answers.length >= shows) break;
    }
  }
  return answers;
}
