import { describe, expect, test } from 'vitest';
import { assess } from '../../../core/job/assess.ts';
import { answersOf } from '../../../renderer/state/placementView.ts';
import { CONTROL, stationOfKey } from '../../../renderer/state/stationOfKey.ts';
import { cameraOf, heldAfter, readingIndex } from '../demoHeld.ts';

const held = heldAfter(readingIndex('slide'));
const stations = (cameraOf(held).procedure?.stations ?? []).map((each) => each.id);

describe('the station something missing belongs to', () => {
  test.each([
    ['reading:slide@carLeft550', 'carLeft550'],
    ['capture@camera/centre', 'centre'],
    ['stations.conditionsHold@camera/carRight550/', 'carRight550'],
    ['reading:bar.sameL@', CONTROL],
    ['control@camera', undefined],
    ['reading:slide@carLeft55', undefined],
  ])('%s belongs to %s', (key, station) => {
    expect(stationOfKey(key, stations)).toBe(station);
  });

  test('everything that the demo job misses at Stations leads to a station or to the control', () => {
    const missing = assess(held.job, answersOf(held.job)).missing.filter((each) => each.stage === 'stations');
    expect(missing.length).toBeGreaterThan(4);
    for (const each of missing) expect(stationOfKey(each.key, stations), each.key).toBeDefined();
  });
});
