/** The slow and certain way to the fewest readings: every plan within bounds is evaluated. */
import type { Design } from '../../../core/planning/design.ts';
import { evaluate } from '../../../core/planning/evaluate.ts';
import { goalsOf } from '../../../core/planning/goals.ts';
import { costOf, secondsOf } from '../../../core/planning/search.ts';

/** The best plan within bounds by counting through all of them: the least cost, then the least time. */
export function countedThrough(design: Design, bounds: ReadonlyMap<string, number>) {
  const { slots } = design.laid;
  const goals = goalsOf(design);
  const indices = goals.map(({ index }) => index);
  let best: { cost: number; seconds: number } | undefined;
  let plans = 0;
  const visit = (i: number, counts: number[]): void => {
    const slot = slots[i];
    if (slot !== undefined) {
      for (let n = slot.least; n <= (bounds.get(slot.key) ?? 1); n++) visit(i + 1, [...counts, n]);
      return;
    }
    plans++;
    const [cost, seconds] = [costOf(design, counts), secondsOf(design, counts)];
    if (best !== undefined && (cost > best.cost || (cost === best.cost && seconds >= best.seconds - 1e-9)))
      return;
    const evaluation = evaluate(design, counts, indices);
    if (evaluation === undefined || !goals.every((goal, k) => goal.proven(evaluation, k))) return;
    best = { cost, seconds };
  };
  visit(0, []);
  return { best, plans };
}
