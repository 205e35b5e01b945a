/** What a shop says of itself and the names of its bays, as texts of a form and back. Pure. */
import { type Shop, shopSchema } from '../../core/job/shop.ts';
import { err, ok, type Result } from '../../core/result.ts';
import type { ThingProblem, ThingTexts } from './shopForms.ts';

/** Lines of an address that a certificate has room for. */
const MOST_LINES = 5;

export function textsOfShop(shop: Shop): ThingTexts {
  const lines = Array.from({ length: MOST_LINES }, (_, n) => [`address${n}`, shop.address[n] ?? '']);
  const { name, code, contact, decisionRule, paper } = shop;
  return { name, code, contact, decisionRule, paper, ...Object.fromEntries(lines) };
}

function parsedShop(
  shop: unknown,
  fieldOf: (path: readonly PropertyKey[]) => string,
): Result<Shop, ThingProblem> {
  const parsed = shopSchema.safeParse(shop);
  return parsed.success
    ? ok(parsed.data)
    : err({ fields: parsed.error.issues.map(({ path }) => fieldOf(path)) });
}

/** The shop as it is typed now. */
export function withDetails(shop: Shop, texts: ThingTexts): Result<Shop, ThingProblem> {
  const text = (field: string): string => (texts[field] ?? '').trim();
  const address = Array.from({ length: MOST_LINES }, (_, n) => text(`address${n}`)).filter(Boolean);
  const { decisionRule = '', paper = '' } = texts;
  const typed = { name: text('name'), code: text('code').toUpperCase(), contact: text('contact') };
  return parsedShop({ ...shop, ...typed, address, decisionRule, paper }, ([first, n]) =>
    first === 'address' ? `address${String(n)}` : String(first),
  );
}

/** The shop with a bay renamed, or, without `code`, with one more. A bay's code stays: certificates carry it. */
export function withBay(shop: Shop, texts: ThingTexts, code?: string): Result<Shop, ThingProblem> {
  const name = (texts.name ?? '').trim();
  const typed = (texts.code ?? '').trim().toUpperCase();
  if (code === undefined && shop.bays.some((bay) => bay.code === typed)) return err({ fields: ['code'] });
  const bays =
    code === undefined
      ? [...shop.bays, { code: typed, name }]
      : shop.bays.map((bay) => (bay.code === code ? { ...bay, name } : bay));
  return parsedShop({ ...shop, bays }, (path) => (path[2] === 'code' ? 'code' : 'name'));
}
