/**
 * What a stage is: one declarative table that window, service, certificate and tests read. Labels are keys of
 * the word catalogue. A field that a procedure's conditions multiply is `per: 'condition'`, one that its measured inputs
 * multiply is `per: 'input'`.
 */
import type { Disposition, SensorKind } from '../events.ts';

export type StageId =
  | 'intake'
  | 'prechecks'
  | 'bay'
  | 'datum'
  | 'placement'
  | 'stations'
  | 'outcome'
  | 'signoff';

export type FieldKind =
  | 'text'
  /** Text of or about a person; kept outside the chain. */
  | 'personal'
  | 'vin'
  | 'choice'
  | 'choices'
  /** Yes or no; *no* needs attention and, where `stops`, forbids the work. */
  | 'confirm'
  /** In order, not in order with one of `reasons`, or does not apply (where `mayNotApply`): one tap, two for a reason. */
  | 'check'
  /** Fault codes in the form of SAE J2012. */
  | 'codes'
  /** A moment of the bay's clock, to the minute. */
  | 'moment'
  /** A tyre size as on its side wall. */
  | 'tyreSize'
  | 'number'
  /** A length or angle of the geometry, through the entry parser; recorded in millimetres or radians. */
  | 'quantity'
  | 'date';

/** When a field must be filled before a certificate says *calibrated*. */
export type Need =
  | 'always'
  | 'optional'
  | { readonly whenField: string; readonly is: readonly string[] }
  /** While a sensor of one of these kinds is to be calibrated here; for any other job the row is not there. */
  | { readonly whenSensor: readonly SensorKind[] };

/** Where at the car a row is answered: one walk round it, from the seat and back. The order is the tables'. */
export type Walk = 'seat' | 'windscreen' | 'faces' | 'wheels' | 'load' | 'alignment' | 'last';

export interface Choice {
  readonly value: string;
  readonly label: string;
}

export interface Field {
  readonly id: string;
  readonly kind: FieldKind;
  readonly label: string;
  readonly hint?: string;
  /** `overdue`: once for every piece of equipment whose check was due before the work. */
  readonly per: 'job' | 'sensor' | 'station' | 'condition' | 'input' | 'overdue';
  readonly need: Need;
  /** Unit shown after the number; numbers are recorded in this unit (not a length that enters the geometry). */
  readonly unit?: 'km' | 'kPa' | 'lx' | '%' | 'V' | 'mm' | 'µm' | 'min';
  /** What a quantity is; a length where it is absent. */
  readonly quantity?: 'length' | 'angle';
  /** Not needed of a sensor whose scan tool's report is attached. */
  readonly orReport?: boolean;
  /** Where at the car it is answered; absent: with the rest of its section. */
  readonly walk?: Walk;
  /** Why a check is not in order. */
  readonly reasons?: readonly Choice[];
  /** Whether a check may be answered with *does not apply*. */
  readonly mayNotApply?: boolean;
  /** Whether a yes says that the car was moved, which an adhesive that still cures forbids. */
  readonly movesCar?: boolean;
  readonly decimals?: number;
  readonly limits?: { readonly min: number; readonly max: number };
  readonly choices?: readonly Choice[];
  /** Values that stop the work: only a *not calibrated* certificate can follow. */
  readonly stops?: readonly string[];
  /** Needed for *not calibrated* too. */
  readonly neededToStop?: boolean;
  /** Which section of the certificate prints it. */
  readonly printed: 'work' | 'vehicle' | 'prechecks' | 'conditions' | 'outcome' | 'handover' | 'no';
}

export interface Stage {
  readonly id: StageId;
  readonly title: string;
  /** One line for the empty state: what this place is for and the one thing to do. */
  readonly purpose: string;
  /** Cautions shown at the top of the stage. */
  readonly cautions: readonly string[];
  readonly fields: readonly Field[];
  /** Whether the recipe's readings of this stage are entered here. */
  readonly readings: boolean;
  /** The sensor dispositions for which a per-sensor part of this stage applies. */
  readonly appliesTo: readonly Disposition[];
}

/** Choice list from values; the label of value `v` of field `f` is the word key `field.f.v`. */
export function choicesOf(field: string, values: readonly string[]): readonly Choice[] {
  return values.map((value) => ({ value, label: `field.${field}.${value}` }));
}

/** What a check is answered with besides yes (recorded as true) and no (`['no', reason]`). */
export const NOT_APPLICABLE = 'notApplicable';

/** The answers a check can have, and the reasons for a no, as choices with their words. */
export function checkChoices(field: Pick<Field, 'reasons' | 'mayNotApply'>): readonly Choice[] {
  return [
    { value: 'yes', label: 'check.inOrder' },
    { value: 'no', label: 'check.notInOrder' },
    ...(field.mayNotApply === true ? [{ value: NOT_APPLICABLE, label: 'check.notApplicable' }] : []),
    ...(field.reasons ?? []),
  ];
}
