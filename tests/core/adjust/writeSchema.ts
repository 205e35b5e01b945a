/** Writes assets/schemas/network.schema.json from the zod schema. A test holds the file to it. */
import { writeFileSync } from 'node:fs';
import { z } from 'zod';
import { networkSchema } from '../../../core/adjust/network.ts';

/** The JSON Schema of a network document, as text. */
export function networkJsonSchema(): string {
  const schema = z.toJSONSchema(networkSchema, { io: 'input' });
  return `${JSON.stringify({ title: 'Datumline network of readings', ...schema }, undefined, 2)}\n`;
}

if (import.meta.main) {
  writeFileSync(new URL('../../../assets/schemas/network.schema.json', import.meta.url), networkJsonSchema());
}
