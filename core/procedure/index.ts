/** Procedures: the document, its expressions, its check, and its numbers for one car. */
export { checkProcedure, isReviewed } from './check.ts';
export { contentDigest, reviewed, unreviewed } from './editions.ts';
export { faultKey, type ProcedureFault, type ResolvedProcedure, resolveProcedure } from './resolve.ts';
export {
  type Procedure,
  type ProcedureCondition,
  type ProcedureStation,
  type ProcedureTolerance,
  procedureSchema,
} from './schema.ts';
