// A small dose of killing the window while somebody types; `npm run faults -- --only kill-window` does twenty.
import { killWindows } from '../faults/windowKills.ts';
import { expect, test } from './fixtures.ts';

const SEED = 77;

test(`one kill of the whole application while typing (seed ${SEED}): nothing recorded is lost, drafts are back`, async ({
  playwright,
}) => {
  test.setTimeout(180_000);
  const { counts, problems } = await killWindows(playwright._electron, SEED, 1);
  expect(problems).toEqual([]);
  expect(counts.kills).toBe(1);
});
