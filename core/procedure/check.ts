/**
 * What can be said against a procedure before any car is measured: names used twice, expressions that cannot
 * be read or mix units, limits that cross, slides without a stand, a review that does not fit who did it.
 */

import { quantityValue, readQuantityText } from './quantityText.ts';
import type { ProcedureFault } from './resolve.ts';
import { resolveProcedure } from './resolve.ts';
import type { Procedure, ProcedureCondition } from './schema.ts';

/** Every fault of the document by itself, in reading order; empty when it can be used once it is reviewed. */
export function checkProcedure(procedure: Procedure): readonly ProcedureFault[] {
  return [
    ...twice(
      'stations',
      procedure.stations.map((station) => station.id),
    ),
    ...twice(
      'conditions',
      procedure.conditions.map((condition) => condition.id),
    ),
    ...procedure.conditions.flatMap(conditionFaults),
    ...reviewFaults(procedure.source),
    ...expressionFaults(procedure),
  ];
}

/** True when a second look by the rules of this shop has been recorded; an unreviewed one is for rehearsal only. */
export function isReviewed(procedure: Procedure): boolean {
  return procedure.source.reviewWay !== 'unreviewed' && reviewFaults(procedure.source).length === 0;
}

function twice(where: string, ids: readonly string[]): readonly ProcedureFault[] {
  return ids
    .filter((id, index) => ids.indexOf(id) !== index)
    .map((id) => ({ code: 'procedure/nameTaken', where, text: id }));
}

function conditionFaults(condition: ProcedureCondition): readonly ProcedureFault[] {
  const where = `conditions.${condition.id}`;
  if (condition.kind === 'value' && condition.least > condition.most) {
    return [{ code: 'procedure/limitsCrossed', where, text: `${condition.least}, ${condition.most}` }];
  }
  if (condition.kind !== 'choice') return [];
  const values = condition.choices.map((choice) => choice.value);
  const nothingFits: readonly ProcedureFault[] = condition.choices.some((choice) => choice.fits)
    ? []
    : [{ code: 'procedure/nothingFits', where, text: values.join(', ') }];
  return [...twice(where, values), ...nothingFits];
}

function reviewFaults(source: Procedure['source']): readonly ProcedureFault[] {
  const fault = (text: string): readonly ProcedureFault[] => [
    { code: 'procedure/reviewUnclear', where: 'source', text },
  ];
  const { enteredBy, enteredOn, reviewedBy, reviewWay, review } = source;
  const samePerson = reviewedBy?.trim().toLowerCase() === enteredBy.trim().toLowerCase();
  switch (reviewWay) {
    case 'unreviewed':
      return reviewedBy === null && review === undefined ? [] : fault(reviewedBy ?? enteredBy);
    case 'ownSecondEntry':
      // A second look on the same day sees what it expects to see.
      if (review !== undefined && review.on <= (enteredOn ?? source.readOn)) return fault(review.on);
      return samePerson ? [] : fault(reviewedBy ?? enteredBy);
    case 'otherShop':
      if (review !== undefined && review.shop === undefined) return fault(reviewedBy ?? enteredBy);
      return reviewedBy === null || samePerson ? fault(reviewedBy ?? enteredBy) : [];
    case 'secondPerson':
      return reviewedBy === null || samePerson ? fault(reviewedBy ?? enteredBy) : [];
  }
}

/**
 * Evaluates everything with each input at its lower limit: units do not depend on values, and what divides by
 * zero at an allowed value is a fault of the document.
 */
function expressionFaults(procedure: Procedure): readonly ProcedureFault[] {
  const lowest = new Map<string, number>();
  for (const input of procedure.inputs) {
    const read = readQuantityText(input.least, input.quantity);
    const value = read.ok ? quantityValue(read.value, input.quantity, new Map()) : read;
    if (value.ok) lowest.set(input.name, value.value);
  }
  const resolved = resolveProcedure(procedure, lowest);
  return resolved.ok ? [] : resolved.error;
}
