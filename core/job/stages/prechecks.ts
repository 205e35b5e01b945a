/**
 * Pre-checks: is this car fit to be calibrated? Rows stand in the order of one walk round the car. What only one kind of
 * sensor asks for is there for that kind; the procedure adds its own conditions, one row each.
 */
import { choicesOf, type Field, type Need, type Stage, type Walk } from './stage.ts';

const row = (name: string, walk: Walk) => ({
  id: `prechecks.${name}`,
  label: `field.prechecks.${name}`,
  per: 'job' as const,
  walk,
  printed: 'prechecks' as const,
});

/** A check answered with a tap; a no forbids the work and names one of the reasons. */
const check = (
  name: string,
  walk: Walk,
  reasons: readonly string[],
  { need = 'always', ...more }: Partial<Pick<Field, 'need' | 'mayNotApply' | 'movesCar'>> = {},
): Field => ({
  ...row(name, walk),
  kind: 'check',
  need,
  stops: ['no'],
  reasons: choicesOf(`prechecks.${name}`, reasons),
  ...more,
});

/** Beyond these it is asked, never refused. Common practice, no source: the car's and the adhesive's makers say what holds. */
const PRESSURE_KPA = { min: 100, max: 900 } as const;
/** A fast adhesive's ten minutes to three days in the cold (common practice, no source). */
const ADHESIVE_MINUTES = { min: 10, max: 4320 } as const;
/** From one thin coat to filler below several (common practice, no source). */
const PAINT_MICROMETRES = { min: 40, max: 1000 } as const;

const pressure = (corner: string): Field => ({
  ...row(`pressure${corner}`, 'wheels'),
  kind: 'number',
  need: 'always',
  unit: 'kPa',
  decimals: 0,
  limits: PRESSURE_KPA,
});

/** Tread depths of road tyres lie within this (common practice, no source); beyond it is asked, never refused. */
const tread = (corner: string): Field => ({
  ...row(`tread${corner}`, 'wheels'),
  kind: 'number',
  need: 'optional',
  unit: 'mm',
  decimals: 1,
  limits: { min: 0.5, max: 14 },
});

const toe = (corner: string): Field => ({
  ...row(`toe${corner}`, 'alignment'),
  kind: 'quantity',
  quantity: 'angle',
  need: 'optional',
});

const RADARS: Need = { whenSensor: ['frontRadar', 'cornerRadar'] };
const CAMERA: Need = { whenSensor: ['forwardCamera'] };
const REPLACED: Need = { whenField: 'prechecks.glass', is: ['makersPart', 'otherPart'] };

const seat: readonly Field[] = [
  {
    ...row('codesBefore', 'seat'),
    kind: 'codes',
    hint: 'field.prechecks.codesBefore.hint',
    need: 'always',
    neededToStop: true,
    printed: 'outcome',
  },
  check('noOpenFaults', 'seat', ['supply', 'steering', 'brakes', 'sensor', 'other']),
  check('batterySupport', 'seat', ['notConnected', 'voltageFalls']),
  {
    ...row('fuel', 'seat'),
    kind: 'number',
    need: 'always',
    unit: '%',
    decimals: 0,
    limits: { min: 0, max: 100 },
  },
  check('steeringStraight', 'seat', ['wheelAskew', 'angleSensor']),
  check('suspensionMode', 'seat', ['otherMode', 'fault'], { need: 'optional', mayNotApply: true }),
];

const windscreen: readonly Field[] = [
  {
    ...row('glass', 'windscreen'),
    kind: 'choice',
    need: 'always',
    choices: choicesOf('prechecks.glass', ['notReplaced', 'makersPart', 'otherPart']),
  },
  {
    ...row('bondedAt', 'windscreen'),
    kind: 'moment',
    hint: 'field.prechecks.bondedAt.hint',
    need: 'optional',
  },
  {
    ...row('adhesiveMinutes', 'windscreen'),
    kind: 'number',
    need: 'optional',
    unit: 'min',
    decimals: 0,
    limits: ADHESIVE_MINUTES,
  },
  {
    ...row('adhesive', 'windscreen'),
    kind: 'choice',
    need: REPLACED,
    choices: choicesOf('prechecks.adhesive', ['timeOver', 'timeRunning']),
    stops: ['timeRunning'],
  },
  check('cameraWindow', 'windscreen', ['dirty', 'damaged', 'film', 'wet'], { need: CAMERA }),
];

const faces: readonly Field[] = [
  check('sensorSeated', 'faces', ['loose', 'bracketBent', 'coverLoose', 'dirty']),
  check('faceTilt', 'faces', ['tilted', 'turned'], { need: RADARS }),
  {
    ...row('cover', 'faces'),
    kind: 'choice',
    need: RADARS,
    choices: choicesOf('prechecks.cover', ['original', 'makersPart', 'otherPart', 'uncovered']),
  },
  check('coverSound', 'faces', ['filler', 'sticker', 'paint', 'cracked'], { need: RADARS }),
  {
    ...row('paintThickness', 'faces'),
    kind: 'number',
    need: 'optional',
    unit: 'µm',
    decimals: 0,
    limits: PAINT_MICROMETRES,
  },
];

const wheels: readonly Field[] = [
  ...['FL', 'FR', 'RR', 'RL'].map(pressure),
  check('tyresMatch', 'wheels', ['size', 'unlike', 'worn', 'spare']),
  { ...row('tyreSizeFront', 'wheels'), kind: 'tyreSize', need: 'optional' },
  { ...row('tyreSizeRear', 'wheels'), kind: 'tyreSize', need: 'optional' },
  ...['FL', 'FR', 'RR', 'RL'].map(tread),
  {
    ...row('rideHeight', 'wheels'),
    kind: 'choice',
    need: 'always',
    choices: choicesOf('prechecks.rideHeight', ['standard', 'differs']),
    stops: ['differs'],
  },
  check('settled', 'wheels', ['lifted', 'braked'], { movesCar: true }),
];

const load: readonly Field[] = [
  check('unladen', 'load', ['cargo', 'fittings']),
  check('roofClear', 'load', ['box', 'rack'], { need: 'optional', mayNotApply: true }),
  check('towBar', 'load', ['carrier', 'trailer'], { need: 'optional', mayNotApply: true }),
];

export const prechecks: Stage = {
  id: 'prechecks',
  title: 'stage.prechecks.title',
  purpose: 'stage.prechecks.purpose',
  cautions: ['caution.highVoltage', 'caution.maker'],
  readings: false,
  appliesTo: ['staticHere'],
  fields: [
    ...seat,
    ...windscreen,
    ...faces,
    ...wheels,
    ...load,
    ...['FL', 'FR', 'RL', 'RR'].map(toe),
    {
      id: 'prechecks.condition',
      kind: 'confirm',
      label: 'field.prechecks.condition',
      per: 'condition',
      need: 'always',
      stops: ['no'],
      printed: 'prechecks',
    },
    check('nobodyAboard', 'last', ['aboard', 'doorOpen']),
    { ...row('remarks', 'last'), kind: 'personal', need: 'optional' },
  ],
};
