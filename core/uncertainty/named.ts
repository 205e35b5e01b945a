/** Records keyed by the names of quantities. The two casts of the language's loose object functions live here alone. */

/** Names of a record in their order. */
export function namesOf<Name extends string>(record: Readonly<Record<Name, unknown>>): readonly Name[] {
  return Object.keys(record) as Name[];
}

/** A record with one value for each name. */
export function recordOf<Name extends string, T>(
  names: readonly Name[],
  value: (name: Name, index: number) => T,
): Readonly<Record<Name, T>> {
  return Object.fromEntries(names.map((name, i) => [name, value(name, i)])) as Record<Name, T>;
}
