/** The shop that uses this installation: its name, people, bays and equipment. Recorded as events of its own. */
import { z } from 'zod';
import { procedureSchema } from '../procedure/schema.ts';
import { fixtureSchema, instrumentSchema, sideArmSchema, targetSchema } from './equipment.ts';
import { repeatabilitySchema } from './repeatability.ts';
import { type Room, roomSchema } from './room.ts';
import { sensorKindSchema } from './sensorKind.ts';

const id = z.string().regex(/^[A-Za-z0-9._-]{1,40}$/);

export const roleSchema = z.enum(['technician', 'signer', 'office', 'owner']);
export type Role = z.infer<typeof roleSchema>;

/** What a person may do at one kind of sensor, by what evidence, and until when that holds. */
export const competenceSchema = z.strictObject({
  sensor: sensorKindSchema,
  evidence: z.string().min(1).max(160),
  until: z.string().regex(/^\d{4}-\d{2}-\d{2}$/),
});
export type Competence = z.infer<typeof competenceSchema>;

/** One person who works here; `qualification` is printed on the certificate as it stands. */
export const personSchema = z.strictObject({
  id,
  name: z.string().min(1).max(80),
  roles: z.array(roleSchema).min(1),
  qualification: z.string().max(160),
  /** One for a kind of sensor; absent where nothing was recorded, and in older records. */
  competence: z.array(competenceSchema).max(sensorKindSchema.options.length).optional(),
});
export type Person = z.infer<typeof personSchema>;

/** So many editions that gave way are kept beside those in use; all of them stay in the journal. */
export const MOST_FORMER = 60;

/** The shop. `code` and a bay's `code` form certificate numbers `<shop>-<bay>-<year>-<counter>`. */
export const shopSchema = z.strictObject({
  name: z.string().min(1).max(120),
  code: z.string().regex(/^[A-Z0-9]{2,6}$/),
  address: z.array(z.string().max(120)).max(5),
  contact: z.string().max(120),
  demo: z.boolean(),
  decisionRule: z.enum(['guarded', 'simple', 'fullU']),
  paper: z.enum(['A4', 'Letter']),
  bays: z
    .array(
      z.strictObject({
        code: z.string().regex(/^[A-Z0-9]{1,4}$/),
        name: z.string().min(1).max(60),
        /** Outline, floor and ground works; absent until something of it was recorded, and in older records. */
        room: roomSchema.optional(),
      }),
    )
    .min(1),
  people: z.array(personSchema).min(1),
  instruments: z.array(instrumentSchema),
  sideArms: z.array(sideArmSchema),
  fixtures: z.array(fixtureSchema),
  targets: z.array(targetSchema),
  /** Its own studies of how well readings repeat; absent until there is one, and in older records. */
  repeatability: repeatabilitySchema.optional(),
  procedures: z.array(procedureSchema),
  /** Editions that gave way to a later one, oldest first; absent until there is one, and in older records. */
  formerProcedures: z.array(procedureSchema).max(MOST_FORMER).optional(),
});
export type Shop = z.infer<typeof shopSchema>;

/** The shop with what is now known of one of its bays; unchanged for a bay it does not have. */
export function withRoom(shop: Shop, bay: string, room: Room): Shop {
  return { ...shop, bays: shop.bays.map((each) => (each.code === bay ? { ...each, room } : each)) };
}
