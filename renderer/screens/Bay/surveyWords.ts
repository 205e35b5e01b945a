/** What a surveyed floor is, as facts in words. */
import { FLATNESS_STEP_MM, flatnessOfLine, LEAST_HEIGHTS } from '../../../core/bay/flatness.ts';
import type { SurveyedFloor } from '../../../core/bay/floorSurvey.ts';
import { surveyFlatness } from '../../../core/bay/surveyFlatness.ts';
import { type Known, slopesOf } from '../../../core/bay/weightedPlane.ts';
import { formatFixed, formatLength } from '../../../core/units.ts';
import { say } from '../../../core/words/index.ts';
import type { Fact } from './Facts.tsx';

/** The straightedge a floor is judged with, mm. */
const EDGE_MM = 2000;

function slopeWords({ value, u }: Known): string {
  return say(value < 0 ? 'bay.survey.falling' : 'bay.survey.rising', {
    slope: formatFixed(Math.abs(value) * 1000, 2),
    uncertainty: formatFixed(2 * u * 1000, 2),
  });
}

function flatnessWords(floor: SurveyedFloor): string {
  const found = surveyFlatness(floor, EDGE_MM);
  if (!found.ok) return say('bay.survey.tooWide');
  const { gapMm, uMm } = found.value.worst;
  return say('bay.survey.gap', {
    gap: formatLength(gapMm, 1, 'mm'),
    uncertainty: formatLength(2 * uMm, 1, 'mm'),
  });
}

/** F-numbers of the longest unbroken line at the step they are defined for. */
function fNumberWords({ survey }: SurveyedFloor): string {
  const step = FLATNESS_STEP_MM.metric;
  const even = survey.xsMm.every((x, i) => i === 0 || Math.abs(x - (survey.xsMm[i - 1] ?? x) - step) < 1);
  const line = survey.heightsMm.map((row) => row.filter((height) => height !== undefined));
  const whole = line.filter((row) => row.length === survey.xsMm.length);
  const numbers = even ? whole.map((row) => flatnessOfLine(row)).find((each) => each.ok) : undefined;
  if (numbers?.ok !== true) {
    return say('bay.survey.fNumbersNeed', {
      least: String(LEAST_HEIGHTS),
      step: formatLength(step, 0, 'mm'),
    });
  }
  return say('bay.survey.fNumbersAre', {
    flatness: formatFixed(numbers.value.flatness, 1),
    levelness: formatFixed(numbers.value.levelness, 1),
  });
}

/** The facts in the order they matter for placing a target. */
export function floorFacts(floor: SurveyedFloor): readonly Fact[] {
  const { along, across } = slopesOf(floor.plane, 0);
  const { highest, lowest, sMm } = floor.residuals;
  const worst = highest.aboveMm >= -lowest.aboveMm ? highest : lowest;
  const place = floor.heights[worst.index];
  return [
    { label: say('bay.survey.slopeAlong'), value: slopeWords(along) },
    { label: say('bay.survey.slopeAcross'), value: slopeWords(across) },
    {
      label: say('bay.survey.worst'),
      value: say('bay.survey.worstAt', {
        amount: formatLength(Math.abs(worst.aboveMm), 1, 'mm'),
        side: say(worst.aboveMm < 0 ? 'bay.survey.below' : 'bay.survey.above'),
        along: formatLength(place?.xMm ?? 0, 0, 'mm'),
        across: formatLength(place?.yMm ?? 0, 0, 'mm'),
      }),
    },
    { label: say('bay.survey.spread'), value: formatLength(sMm, 2, 'mm') },
    {
      label: say('bay.survey.flatness', { edge: formatLength(EDGE_MM, 0, 'mm') }),
      value: flatnessWords(floor),
    },
    { label: say('bay.survey.fNumbers'), value: fNumberWords(floor) },
  ];
}
