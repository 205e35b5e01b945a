import { describe, expect, test } from 'vitest';
import { errorCodes } from '../../../core/contract/errorCodes.ts';
import type { SolveError } from '../../../core/job/solve.ts';
import type { VehicleFound } from '../../../core/placement/found.ts';
import type { PlacementAnswer } from '../../../core/placement/placementAnswer.ts';
import { defaultRecipe } from '../../../core/placement/recipe.ts';
import { invariant } from '../../../core/result.ts';
import { wordFaults } from '../../../core/words/index.ts';
import { placementView } from '../../../renderer/state/placementView.ts';
import { ageText, stampText } from '../../../renderer/text/ageText.ts';
import { carFoundWords } from '../../../renderer/text/carFoundWords.ts';
import { errorWords } from '../../../renderer/text/errorWords.ts';
import { findingLines, openWords } from '../../../renderer/text/findingWords.ts';
import { sayKey } from '../../../renderer/text/sayKey.ts';
import { solveTroubleWords } from '../../../renderer/text/solveTroubleWords.ts';
import { cameraOf, heldAfter, script } from '../demoHeld.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

describe('ages', () => {
  test.each([
    [0, 'now'],
    [59_999, 'now'],
    [MINUTE, '1 min ago'],
    [59 * MINUTE, '59 min ago'],
    [HOUR, '1 h ago'],
    [23 * HOUR, '23 h ago'],
    [DAY, 'yesterday'],
    [10 * DAY, '10 days ago'],
    [-HOUR, 'now'],
  ])('%d ms ago is %s', (age, text) => {
    expect(ageText(1_000_000_000_000 - age, 1_000_000_000_000)).toBe(text);
  });

  test('a moment is shown with the offset that held there', () => {
    expect(stampText({ utcMs: Date.UTC(2026, 2, 5, 14, 7), offsetMin: 60 })).toBe('2026-03-05 15:07');
  });
});

describe('an error in plain words', () => {
  test.each(errorCodes)('%s fills every slot and leaves no gap', (code) => {
    const words = errorWords({ code, details: {}, traceId: 'abc123' });
    for (const text of [words.what, words.next, words.safe]) {
      expect(text).not.toMatch(/[{}]|undefined/);
      expect(text.length).toBeGreaterThan(8);
    }
    expect(words.trace).toContain('abc123');
  });

  test('takes the details that its words ask for', () => {
    const words = errorWords({ code: 'journal/busy', details: { waitedMs: 2000 }, traceId: '' });
    expect(words.what).toContain('2000 ms');
    expect(words.trace).toBe('');
  });

  test('a code from nowhere is named, never blank', () => {
    const words = errorWords({ code: 'disk/onFire', details: {}, traceId: 't' });
    expect(words.what).toContain('disk/onFire');
    expect(words.safe).not.toBe('');
  });

  test('a detail that is no text does not break the sentence', () => {
    const words = errorWords({ code: 'journal/io', details: { problem: { errno: -5 } }, traceId: '' });
    expect(words.what).toContain('errno');
  });
});

test('a key without wording shows itself instead of a blank', () => {
  expect(sayKey('no.such.key')).toBe('no.such.key');
  expect(sayKey('act.done')).toBe('Done');
});

const recipe = defaultRecipe({ bodyFace: true, thrustLine: true });
const errors: readonly SolveError[] = [
  { code: 'solve/noProcedure' },
  { code: 'solve/noEquipment' },
  {
    code: 'solve/procedureFaults',
    faults: [{ code: 'procedure/inputMissing', where: 'stations.plate.up', text: 'badgeHeight' }],
  },
  { code: 'placement/undetermined', quantity: 'thrustLine', readingIds: ['toe.RL', 'toe.RR'] },
  { code: 'placement/undetermined', quantity: 'vehicle', readingIds: ['drop.FL'] },
  { code: 'placement/impossible', readingIds: ['bar.sameL', 'bar.diagRL'] },
  { code: 'placement/sideContradicted', readingIds: ['bar.sameL'] },
  { code: 'placement/directionMissing', readingIds: ['fixture.pitch'] },
  { code: 'placement/notConverged', iterations: 40 },
  { code: 'placement/faceAcrossCar' },
  { code: 'placement/firstStationSlides' },
  { code: 'placement/bodyLeavesOpen', coordinates: ['yaw', 'pitch'] },
  { code: 'placement/unsolvable', cause: 'adjust/noStart' },
];

describe('why there is no placement', () => {
  test.each(errors)('$code says it in whole sentences without a banned word', (error) => {
    const lines = solveTroubleWords(error, recipe);
    expect(lines.length).toBeGreaterThan(0);
    for (const line of lines) {
      expect(line).toMatch(/[.?]$/);
      expect(wordFaults(line)).toEqual([]);
    }
  });

  test('what is undetermined is named with the reading that would fix it', () => {
    const [line] = solveTroubleWords(
      { code: 'placement/undetermined', quantity: 'thrustLine', readingIds: ['toe.RL'] },
      recipe,
    );
    expect(line).toContain('thrust line');
    expect(line).toContain("toe of the car's left rear wheel");
  });
});

const whole = heldAfter(script.steps.length);
const { answer } = placementView(whole.job, cameraOf(whole));
invariant(answer.ok, 'the demo job is solved');
const good: PlacementAnswer = answer.value;

describe('what the readings say of each other', () => {
  test('nothing, when they agree', () => {
    expect(findingLines(good, recipe)).toEqual([]);
  });

  test('one that does not fit is named with its amount; of several it is "one of these"', () => {
    const one = { readingIds: ['bar.sameL'], estimatedBlunder: 12.34, standardisedResidual: 4.1 };
    expect(findingLines({ ...good, suspects: [one] }, recipe)).toEqual([
      {
        words:
          "Does not fit the others: car's-left point ahead to car's-left bar end, by about 12.3 mm. Read it again.",
        names: [],
      },
    ]);
    const several = { ...one, readingIds: ['tape.scale', 'bar.sameL', 'bar.diagRL'] };
    expect(findingLines({ ...good, suspects: [several] }, recipe)).toEqual([
      {
        words: "One of these does not fit. Read again first: car's-left point ahead to car's-left bar end.",
        names: [
          "car's-left point ahead to car's-left bar end",
          "car's-right point ahead to car's-left bar end",
          'scale of the tape',
        ],
      },
    ]);
    const separated = { ...several, separatedBy: 'bar.diagRL' };
    expect(findingLines({ ...good, suspects: [separated] }, recipe)[0]?.words).toMatch(
      /Read again first: car's-right point ahead to car's-left bar end\.$/,
    );
  });

  test('what is still to be read is said in walking order, and apart from trouble', () => {
    const problems = [
      { code: 'placement/undetermined', quantity: 'fixture', readingIds: ['bar.diagRL', 'bar.sameR'] },
    ] as const;
    expect(openWords({ ...good, problems }, recipe)).toEqual([
      "Where the fixture stands is not known yet. Still to be read: car's-right point ahead to car's-right bar end; car's-right point ahead to car's-left bar end.",
    ]);
    expect(openWords(good, recipe)).toEqual([]);
  });

  test('spreads, controls and a failed test of all are said; an open quantity is left to the next action', () => {
    const lines = findingLines(
      {
        ...good,
        spreads: [{ id: 'fixture.pitch', spread: 0.01, limit: 0.002 }],
        controls: [{ id: 'bar.sameL!control', differenceMm: 9, limitMm: 3, agrees: false }],
        globalTest: { chiSquare: 99, dof: 5, limit: 11, passed: false },
        problems: [
          { code: 'placement/undetermined', quantity: 'fixture', readingIds: ['bar.sameL'] },
          { code: 'placement/impossible', readingIds: ['bar.sameL'] },
        ],
      },
      recipe,
    ).map((line) => line.words);
    expect(lines).toHaveLength(4);
    expect(lines.join(' ')).toContain('0.57°');
    expect(lines.join(' ')).toContain('9.0 mm');
    for (const line of lines) expect(wordFaults(line), line).toEqual([]);
  });
});

describe('the car as found', () => {
  const vehicle = good.vehicle;
  invariant(vehicle !== undefined, 'the demo car is found');

  test('is told with U and without a sign', () => {
    const facts = carFoundWords(vehicle);
    const wheelbase = facts.find((fact) => fact.label === 'Wheelbase');
    expect(wheelbase?.value).toMatch(/^27\d\d\.\d mm$/);
    expect(wheelbase?.note).toMatch(/^U \d\.\d mm$/);
    for (const { label, value } of facts) expect(wordFaults(`${label}: ${value}`), value).toEqual([]);
  });

  test('a slope names its way, and level is level', () => {
    const slope = (slopeLeftRad: number): string | undefined => {
      const facts = carFoundWords({ ...vehicle, slopeLeftRad } satisfies VehicleFound);
      return facts.find((fact) => fact.label === 'Floor across the car')?.value;
    };
    expect(slope(0.005)).toBe("0.50 %, rises to the car's left");
    expect(slope(-0.005)).toBe("0.50 %, falls to the car's left");
    expect(slope(0.00001)).toBe('level');
  });

  test('a thrust line names the side it points to', () => {
    const angle = { value: -0.002, u: 0.0003, dof: 50 };
    const facts = carFoundWords({ ...vehicle, thrustLine: { angle, expandedRad: 0.0006, differs: true } });
    expect(facts.find((fact) => fact.label === 'Thrust line from centreline')).toMatchObject({
      value: "0.11° to the car's right",
      note: 'U 0.03°',
    });
  });
});
