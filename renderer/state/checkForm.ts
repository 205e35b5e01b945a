/** One more check of a fixture or target, from texts to the shop that holds it. Pure. */
import { parseQuantity } from '../../core/entry/index.ts';
import { type EquipmentCheck, equipmentCheckSchema, withCheck } from '../../core/job/equipmentChecks.ts';
import type { Shop } from '../../core/job/shop.ts';
import { err, ok, type Result } from '../../core/result.ts';
import type { ThingProblem, ThingTexts } from './shopForms.ts';

export type CheckedKind = 'fixtures' | 'targets';

/** What is done with which. */
export const CHECK_OF: Readonly<Record<CheckedKind, EquipmentCheck['kind']>> = {
  fixtures: 'barByReversal',
  targets: 'targetAgainstRule',
};

const DAY = /^\d{4}-\d{2}-\d{2}$/;

function mmOf(text: string | undefined): number | undefined {
  const read = parseQuantity(text ?? '', { kind: 'length' });
  return read.ok && read.value.questions.length === 0 ? read.value.value : undefined;
}

/** The check that is typed, or the fields that are not right yet. */
export function checkOf(kind: CheckedKind, texts: ThingTexts): Result<EquipmentCheck, ThingProblem> {
  const parsed = equipmentCheckSchema.safeParse({
    kind: CHECK_OF[kind],
    on: (texts.on ?? '').trim(),
    by: (texts.by ?? '').trim(),
    firstMm: mmOf(texts.firstMm),
    secondMm: mmOf(texts.secondMm),
    limitMm: mmOf(texts.limitMm),
  });
  if (!parsed.success) return err({ fields: parsed.error.issues.map(({ path }) => String(path[0])) });
  const { nextDueOn = '' } = texts;
  return nextDueOn.trim() === '' || DAY.test(nextDueOn.trim())
    ? ok(parsed.data)
    : err({ fields: ['nextDueOn'] });
}

/** The shop with the check kept with its thing, and with the day of the next one where that is given. */
export function withNewCheck(
  shop: Shop,
  kind: CheckedKind,
  id: string,
  texts: ThingTexts,
): Result<Shop, ThingProblem> {
  const check = checkOf(kind, texts);
  if (!check.ok) return check;
  const due = (texts.nextDueOn ?? '').trim();
  const checked = <
    T extends { readonly id: string; readonly dueOn: string; readonly checks?: EquipmentCheck[] | undefined },
  >(
    each: T,
  ): T =>
    each.id === id
      ? {
          ...each,
          dueOn: due === '' ? each.dueOn : due,
          checks: [...withCheck(each.checks ?? [], check.value)],
        }
      : each;
  return ok(
    kind === 'fixtures'
      ? { ...shop, fixtures: shop.fixtures.map(checked) }
      : { ...shop, targets: shop.targets.map(checked) },
  );
}
