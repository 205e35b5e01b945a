/**
 * Text of or about a person is kept outside the chain of events, so that it can be erased while the chain stays whole.
 * The event holds a reference and a commitment: SHA-256 over 32 random bytes (the salt) followed by the text's UTF-8. With
 * salt and text anybody can check that the event meant this text; without the salt the text cannot be guessed from it.
 */
import { bytesOfHex, type JsonObject, type JsonValue, sha256Hex, utf8Of } from '../canonical.ts';
import { invariant } from '../result.ts';

/** Length of a salt in bytes; fixed, so that salt and text cannot be divided in two ways. */
export const SALT_BYTES = 32;

/** A personal text with what proves it. `salt` is hex. */
export type PersonalText = { readonly id: string; readonly salt: string; readonly text: string };

/** What stands in the event in place of the text. */
export type PersonalReference = { readonly personalId: string; readonly commitment: string };

/** The commitment to a text under a salt of 32 bytes in hex, as 64 hex digits. */
export function personalCommitment(salt: string, text: string): string {
  const saltBytes = bytesOfHex(salt);
  invariant(saltBytes.length === SALT_BYTES, `a salt has ${SALT_BYTES} bytes, got ${saltBytes.length}`);
  const textBytes = utf8Of(text);
  const whole = new Uint8Array(saltBytes.length + textBytes.length);
  whole.set(saltBytes);
  whole.set(textBytes, saltBytes.length);
  return sha256Hex(whole);
}

/** A payload with its personal texts put aside. */
export type SealedPayload = { readonly payload: JsonObject; readonly personal: readonly PersonalText[] };

/**
 * Replaces every member of the exact form `{ personal: text }` by `{ personalId, commitment }`. `next` gives the id and
 * the salt (hex) of each one found.
 */
export function sealPersonal(
  payload: JsonObject,
  next: () => { readonly id: string; readonly salt: string },
): SealedPayload {
  const personal: PersonalText[] = [];
  const walk = (value: JsonValue): JsonValue => {
    if (isList(value)) return value.map(walk);
    if (typeof value !== 'object' || value === null) return value;
    const text = markedText(value);
    if (text === undefined) return walkObject(value);
    const made = { ...next(), text };
    personal.push(made);
    return { personalId: made.id, commitment: personalCommitment(made.salt, text) };
  };
  const walkObject = (value: JsonObject): JsonObject =>
    Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, walk(inner)]));
  return { payload: walkObject(payload), personal };
}

/** All references to personal texts inside a payload, in the order of their appearance. */
export function personalReferences(payload: JsonValue): readonly PersonalReference[] {
  if (isList(payload)) return payload.flatMap(personalReferences);
  if (typeof payload !== 'object' || payload === null) return [];
  const { personalId, commitment } = payload;
  if (typeof personalId === 'string' && typeof commitment === 'string') return [{ personalId, commitment }];
  return Object.values(payload).flatMap(personalReferences);
}

/** The ids of personal texts that events of type `erased` say were deleted, with all that proved them. */
export function erasedPersonalIds(
  events: readonly { readonly type: string; readonly payload: JsonObject }[],
): ReadonlySet<string> {
  const ids = events
    .filter((event) => event.type === 'erased')
    .flatMap((event) => {
      const listed = event.payload.personalIds;
      return listed !== undefined && isList(listed) ? listed : [];
    });
  return new Set(ids.filter((id) => typeof id === 'string'));
}

function markedText(value: JsonObject): string | undefined {
  const members = Object.keys(value);
  const text = value.personal;
  return members.length === 1 && typeof text === 'string' ? text : undefined;
}

function isList(value: JsonValue): value is readonly JsonValue[] {
  return Array.isArray(value);
}
