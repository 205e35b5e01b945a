/** The shop: who works here, with what. A stream of its own in the journal; the newest record holds. */
import { readFileSync } from 'node:fs';
import type { JsonObject } from '../../../core/canonical.ts';
import type { Input, Output } from '../../../core/contract/index.ts';
import { payloadSchema } from '../../../core/job/events.ts';
import { type Shop, shopSchema, withRoom } from '../../../core/job/shop.ts';
import { recordedProcedure } from '../../../core/job/shopProcedures.ts';
import { err, ok, type Result } from '../../../core/result.ts';
import type { CallError, Handlers } from '../host/handlers.ts';
import type { JournalEntry, StoredEvent } from '../journal/index.ts';
import type { ServiceContext } from './context.ts';
import { contextOf, journalOf, readsOf } from './store.ts';

/** The stream that holds the shop: a fixed id that no job can have, since job ids carry the time they were made. */
export const SHOP_STREAM = '00000000-0000-7000-8000-000000000001';

/** Opens the demo shop's key; printed in the README, because nothing it signs is worth anything. */
export const DEMO_PASSPHRASE = 'harbour demonstration';

/** The name of this PC's own signing certificate beside the shop's. */
const INSTALLATION = 'installation 1';

const DEMO_SHOP = new URL('../../../assets/demo/shop.json', import.meta.url);

/** The person in whose name the program itself records the shop's first state. */
const FOUNDER = 'owner';

const bayRecordedSchema = payloadSchema('bayRecorded');

const remembered = new WeakMap<object, Shop>();

/** The newest record of the shop, with what was recorded of its bays since. */
function shopOfEvents(events: readonly StoredEvent[]): Shop | undefined {
  const index = events.findLastIndex((each) => each.event.type === 'shopRecorded');
  const recorded = shopSchema.safeParse(events[index]?.event.payload.shop);
  if (!recorded.success) return undefined;
  return events.slice(index + 1).reduce((shop, { event }) => {
    const bay = event.type === 'bayRecorded' ? bayRecordedSchema.safeParse(event.payload) : undefined;
    return bay?.success === true ? withRoom(shop, bay.data.bay, bay.data.room) : shop;
  }, recorded.data);
}

/** The shop as it stands, or undefined before one is set up. */
export function currentShop(context: ServiceContext): Shop | undefined {
  const reads = readsOf(context.store);
  if (!reads.ok) return undefined;
  const known = remembered.get(reads.value);
  if (known !== undefined) return known;
  const read = reads.value.readJob(SHOP_STREAM);
  const shop = read.ok ? shopOfEvents(read.value.events) : undefined;
  if (shop !== undefined) remembered.set(reads.value, shop);
  return shop;
}

/** The shop as it was before an event of the store: what a sealed certificate prints, whatever changed since. */
export function shopBefore(context: ServiceContext, storeSeq: number): Shop | undefined {
  const reads = readsOf(context.store);
  const read = reads.ok ? reads.value.readJob(SHOP_STREAM) : reads;
  if (!read.ok) return undefined;
  return shopOfEvents(read.value.events.filter((each) => each.event.storeSeq < storeSeq));
}

/** Appends one fact to the shop's own stream. */
function appendToShop(
  context: ServiceContext,
  entry: JournalEntry,
  commandId: string,
  person: string,
): Result<undefined, CallError> {
  const journal = journalOf(context.store);
  if (!journal.ok) return journal;
  const before = journal.value.readJob(SHOP_STREAM);
  if (!before.ok && before.error.code !== 'journal/noJob') return before;
  const appended = journal.value.append({
    job: SHOP_STREAM,
    commandId,
    expectedSeq: before.ok ? before.value.head.seq : 0,
    entries: [entry],
    ctx: contextOf(journal.value.storeId, person, context.version, context.clock, context.random),
  });
  if (!appended.ok) return appended;
  remembered.delete(journal.value);
  return ok(undefined);
}

/** Records a new state of the shop. */
export function recordShop(
  context: ServiceContext,
  shop: Shop,
  commandId: string,
  person: string,
): Result<undefined, CallError> {
  const payload = { shop: shop as unknown as JsonObject };
  return appendToShop(context, { type: 'shopRecorded', v: 1, payload }, commandId, person);
}

/** Records what is now known of a bay: whoever works here may survey its floor. */
function recordBay(
  context: ServiceContext,
  { bay, room, commandId, person }: Input<'shop.recordBay'>,
): Result<Output<'shop.recordBay'>, CallError> {
  const shop = currentShop(context);
  if (shop === undefined) return err({ code: 'shop/none', details: {} });
  if (!shop.people.some((each) => each.id === person)) {
    return err({ code: 'person/unknown', details: { person } });
  }
  if (!shop.bays.some((each) => each.code === bay)) return err({ code: 'shop/noBay', details: { bay } });
  const payload = { bay, room: room as unknown as JsonObject };
  const recorded = appendToShop(context, { type: 'bayRecorded', v: 1, payload }, commandId, person);
  return recorded.ok ? ok(status(context)) : recorded;
}

/** Records a procedure that a person entered or reviewed; who may do which is the core's rule. */
function recordProcedure(
  context: ServiceContext,
  { procedure, commandId, person }: Input<'shop.recordProcedure'>,
): Result<Output<'shop.recordProcedure'>, CallError> {
  const shop = currentShop(context);
  if (shop === undefined) return err({ code: 'shop/none', details: {} });
  const acting = shop.people.find((each) => each.id === person);
  if (acting === undefined) return err({ code: 'person/unknown', details: { person } });
  const next = recordedProcedure(shop, acting.name, procedure);
  if (!next.ok) return err({ code: next.error, details: {} });
  const recorded = recordShop(context, next.value, commandId, person);
  return recorded.ok ? ok(status(context)) : recorded;
}

/** What the window asks first: can we record, whose shop is this, can we sign. */
export function status(context: ServiceContext): Output<'app.status'> {
  return {
    version: context.version,
    build: context.build,
    store: context.store.state,
    shop: currentShop(context) ?? null,
    key: context.keys.state(),
    rootFingerprint: context.keys.rootFingerprint(),
  };
}

/** Reads the demo shop that ships with the program; a file that does not fit its schema is a bug. */
export function demoShop(): Shop {
  return shopSchema.parse(JSON.parse(readFileSync(DEMO_SHOP, 'utf8')));
}

async function openDemo(
  context: ServiceContext,
  { commandId }: Input<'shop.openDemo'>,
): Promise<Result<Output<'shop.openDemo'>, CallError>> {
  if (currentShop(context) !== undefined) return ok(status(context));
  const shop = demoShop();
  const made = await context.keys.create(shop.name, INSTALLATION, DEMO_PASSPHRASE);
  if (!made.ok) return made;
  const recorded = recordShop(context, shop, commandId, shop.people[0]?.id ?? FOUNDER);
  return recorded.ok ? ok(status(context)) : recorded;
}

function shopOf(input: Input<'shop.setUp'>): Shop {
  return {
    name: input.name,
    code: input.code,
    address: input.address.split('\n').filter((line) => line.trim() !== ''),
    contact: '',
    demo: false,
    decisionRule: 'guarded',
    paper: 'A4',
    bays: [{ code: '1', name: input.bayName }],
    people: [
      {
        id: FOUNDER,
        name: input.personName,
        roles: ['technician', 'signer', 'office', 'owner'],
        qualification: input.qualification,
      },
    ],
    instruments: [],
    sideArms: [],
    fixtures: [],
    targets: [],
    procedures: [],
  };
}

async function setUp(
  context: ServiceContext,
  input: Input<'shop.setUp'>,
): Promise<Result<Output<'shop.setUp'>, CallError>> {
  if (currentShop(context) !== undefined) return err({ code: 'shop/exists', details: {} });
  const made = await context.keys.create(input.name, INSTALLATION, input.passphrase);
  if (!made.ok) return made;
  const recorded = recordShop(context, shopOf(input), input.commandId, FOUNDER);
  if (!recorded.ok) return recorded;
  return ok({
    status: status(context),
    rootKeyFile: Buffer.from(made.value.rootKeyFile).toString('base64'),
    rootKeyFileName: `${input.code}-shop-root.dtlkey`,
  });
}

function record(
  context: ServiceContext,
  input: Input<'shop.record'>,
): Result<Output<'shop.record'>, CallError> {
  const person = currentShop(context)?.people.find((each) => each.id === input.person);
  if (!person?.roles.includes('owner')) {
    return err({ code: 'person/notAllowed', details: { person: input.person, needs: 'owner' } });
  }
  const recorded = recordShop(context, input.shop, input.commandId, input.person);
  return recorded.ok ? ok(status(context)) : recorded;
}

async function openKey(
  context: ServiceContext,
  { passphrase }: Input<'key.open'>,
): Promise<Result<Output<'key.open'>, CallError>> {
  const opened = await context.keys.open(passphrase);
  return opened.ok ? ok(status(context)) : opened;
}

/** The handlers of this topic. */
export function shopHandlers(
  context: ServiceContext,
): Pick<
  Handlers,
  | 'app.status'
  | 'shop.openDemo'
  | 'shop.setUp'
  | 'shop.record'
  | 'shop.recordBay'
  | 'shop.recordProcedure'
  | 'key.open'
> {
  return {
    'app.status': () => ok(status(context)),
    'shop.openDemo': (input) => openDemo(context, input),
    'shop.setUp': (input) => setUp(context, input),
    'shop.record': (input) => record(context, input),
    'shop.recordBay': (input) => recordBay(context, input),
    'shop.recordProcedure': (input) => recordProcedure(context, input),
    'key.open': (input) => openKey(context, input),
  };
}
