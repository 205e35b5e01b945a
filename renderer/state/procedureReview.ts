/**
 * The ways a procedure is reviewed: value by value by a second person, by another shop through two files, or by the one
 * person again, typed on another day without seeing the first entry. Pure.
 */
import { z } from 'zod';
import { COORDINATES, type Coordinate, isAngleCoordinate } from '../../core/frames.ts';
import {
  contentDigest,
  type Procedure,
  type ProcedureStation,
  procedureSchema,
  reviewed,
} from '../../core/procedure/index.ts';
import { quantityValue, readQuantityText } from '../../core/procedure/quantityText.ts';
import { err, ok, type Result } from '../../core/result.ts';
import { say } from '../../core/words/index.ts';
import { placeWords } from '../text/procedurePlace.ts';
import { countedWords, signedValue } from '../text/procedureWords.ts';
import { procedureValues } from './procedureValues.ts';
import { splitSign } from './signedText.ts';

/** Why a person cannot review in a way, as a key of the catalogue; undefined when nothing stands against it. */
export function againstReview(
  procedure: Procedure,
  way: 'secondPerson' | 'ownSecondEntry',
  person: string,
  today: string,
): 'review.against.own' | 'review.against.other' | 'review.against.sameDay' | undefined {
  const { enteredBy, enteredOn, readOn } = procedure.source;
  if (way === 'secondPerson') return enteredBy === person ? 'review.against.own' : undefined;
  if (enteredBy !== person) return 'review.against.other';
  return today <= (enteredOn ?? readOn) ? 'review.against.sameDay' : undefined;
}

/** The procedure as a second person found it on the page, every value looked at. */
export function reviewedBySecond(procedure: Procedure, person: string, today: string): Procedure {
  const values = procedureValues(procedure).length;
  return reviewed(procedure, 'secondPerson', person, { on: today, values });
}

/** One number to be typed again; its way is told, because the question is the number. */
export interface AgainField {
  readonly where: string;
  readonly label: string;
  readonly quantity: 'length' | 'angle' | 'words';
  /** The way the number is counted, empty for one that has none. */
  readonly way: string;
  /** What the first entry says. Not to be shown before the second one is whole. */
  readonly first: string;
}

function toleranceTexts(station: ProcedureStation, coordinate: Coordinate): readonly string[] {
  const { tolerance } = station[coordinate];
  if (station.free.includes(coordinate)) return [];
  switch (tolerance.kind) {
    case 'twoSided':
      return [tolerance.limit];
    case 'unequal':
      return [splitSign(tolerance.lower).size, splitSign(tolerance.upper).size];
    case 'lowerOnly':
      return [splitSign(tolerance.lower).size];
    case 'upperOnly':
      return [splitSign(tolerance.upper).size];
    case 'range':
      return [splitSign(tolerance.least).size, splitSign(tolerance.most).size];
    case 'notStated':
      return tolerance.workingLimit === null ? [] : [tolerance.workingLimit];
  }
}

function stationAgain(procedure: Procedure, station: ProcedureStation): readonly AgainField[] {
  return COORDINATES.flatMap((coordinate): readonly AgainField[] => {
    const where = `stations.${station.id}.${coordinate}`;
    const label = placeWords(where, procedure.stations);
    const quantity = isAngleCoordinate(coordinate) ? 'angle' : 'length';
    const signed = signedValue(station, coordinate);
    const zero = signed === undefined || signed.size.trim() === '0';
    const value: AgainField = {
      where,
      label,
      quantity,
      way: zero ? '' : countedWords(coordinate, signed.against, station.place),
      first: signed?.size ?? station[coordinate].value,
    };
    const limits = toleranceTexts(station, coordinate).map(
      (first, at) =>
        ({
          where: `${where}.tolerance.${at}`,
          label: placeWords(`${where}.tolerance`, procedure.stations),
          quantity,
          way: '',
          first,
        }) as const,
    );
    return [value, ...limits];
  });
}

/** Everything that is typed again: the source's place and every number of every station. */
export function fieldsAgain(procedure: Procedure): readonly AgainField[] {
  const { source, target, stations } = procedure;
  const words = (where: string, first: string): AgainField => ({
    where,
    label: placeWords(where, stations),
    quantity: 'words',
    way: '',
    first,
  });
  const length = (where: string, mm: number): AgainField => ({
    where,
    label: placeWords(where, stations),
    quantity: 'length',
    way: '',
    first: `${mm} mm`,
  });
  return [
    words('source.document', source.document),
    ...(source.section === '' ? [] : [words('source.section', source.section)]),
    length('target.width', target.widthMm),
    length('target.height', target.heightMm),
    ...stations.flatMap((station) => stationAgain(procedure, station)),
  ];
}

/** Two numbers of one entry twice agree below what anybody can write, mm or rad. */
const AGREEMENT = 1e-9;

const plain = (text: string): string => text.trim().toLowerCase().replace(/\s+/g, ' ').replace(/,/g, '.');

/** The value of a text that needs no input. */
function fixedValue(text: string, quantity: 'length' | 'angle'): number | undefined {
  const read = readQuantityText(text, quantity);
  const value = read.ok ? quantityValue(read.value, quantity, new Map()) : read;
  return value.ok ? value.value : undefined;
}

function agrees(field: AgainField, second: string): boolean {
  if (plain(field.first) === plain(second)) return true;
  if (field.quantity === 'words') return false;
  const one = fixedValue(field.first, field.quantity);
  const other = fixedValue(second, field.quantity);
  return one !== undefined && other !== undefined && Math.abs(one - other) <= AGREEMENT;
}

/** What the two entries do not say alike; expressions over inputs agree only as they are written. */
export function differingAgain(
  fields: readonly AgainField[],
  typed: Readonly<Record<string, string>>,
): readonly AgainField[] {
  return fields.filter((field) => !agrees(field, typed[field.where] ?? ''));
}

/** The procedure after a second entry that agreed. */
export function reviewedByOwnEntry(procedure: Procedure, today: string): Procedure {
  const { enteredBy } = procedure.source;
  return reviewed(procedure, 'ownSecondEntry', enteredBy, {
    on: today,
    values: fieldsAgain(procedure).length,
  });
}

/** What goes to another shop: the procedure and what its answer must name. */
export function reviewRequest(procedure: Procedure, shop: string): string {
  const { page: _page, ...source } = procedure.source;
  const content = contentDigest(procedure);
  const request = {
    format: 'datumline-review-request-1',
    shop,
    content,
    procedure: { ...procedure, source },
  };
  return `${JSON.stringify(request, undefined, 1)}\n`;
}

const requestSchema = z.strictObject({
  format: z.literal('datumline-review-request-1'),
  shop: z.string().min(1).max(120),
  content: z.string().max(64),
  procedure: procedureSchema,
});

const replySchema = z.strictObject({
  format: z.literal('datumline-review-reply-1'),
  content: z.string().max(64),
  shop: z.string().min(1).max(120),
  person: z.string().min(1).max(120),
  on: z.string().regex(/^\d{4}-\d{2}-\d{2}$/),
  values: z.int().min(1).max(2000),
});

/** Characters of a file that is read at all. */
const MOST_CHARACTERS = 500_000;

function jsonOf(text: string): unknown {
  try {
    return text.length > MOST_CHARACTERS ? undefined : JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** The procedure of another shop's request, or why it is none. */
export function readReviewRequest(
  text: string,
): Result<{ readonly shop: string; readonly procedure: Procedure }, string> {
  const parsed = requestSchema.safeParse(jsonOf(text));
  if (!parsed.success) return err(say('otherShop.noRequest'));
  const { shop, procedure, content } = parsed.data;
  return content === contentDigest(procedure) ? ok({ shop, procedure }) : err(say('otherShop.altered'));
}

/** What goes back to the shop that asked, after every value was looked at. */
export function reviewReply(procedure: Procedure, shop: string, person: string, today: string): string {
  const reply = {
    format: 'datumline-review-reply-1',
    content: contentDigest(procedure),
    shop,
    person,
    on: today,
    values: procedureValues(procedure).length,
  };
  return `${JSON.stringify(reply, undefined, 1)}\n`;
}

/** The procedure with another shop's review, or why the reply is none of it. */
export function withReviewReply(procedure: Procedure, text: string): Result<Procedure, string> {
  const parsed = replySchema.safeParse(jsonOf(text));
  if (!parsed.success) return err(say('otherShop.noReply'));
  const { content, shop, person, on, values } = parsed.data;
  if (content !== contentDigest(procedure)) return err(say('otherShop.otherContent'));
  if (person.trim().toLowerCase() === procedure.source.enteredBy.trim().toLowerCase()) {
    return err(say('review.against.own'));
  }
  return ok(reviewed(procedure, 'otherShop', person, { on, values, shop, content }));
}
