/** A procedure from a file: read as JSON, held against its schema and its own rules, taken or told why not. Pure. */
import { checkProcedure, faultKey, type Procedure, procedureSchema } from '../../core/procedure/index.ts';
import { err, ok, type Result } from '../../core/result.ts';
import { say } from '../../core/words/index.ts';
import { sayKey } from '../text/sayKey.ts';

/** No procedure is longer than this, characters. */
const MOST_CHARACTERS = 400_000;
/** More faults than these are no help, only a wall. */
const MOST_FAULTS = 8;

function jsonOf(text: string): Result<unknown, readonly string[]> {
  try {
    return ok(JSON.parse(text));
  } catch {
    return err([say('procedureFile.notJson')]);
  }
}

/** The procedure of a file's text, or every reason against it in words. */
export function readProcedureFile(text: string): Result<Procedure, readonly string[]> {
  if (text.length > MOST_CHARACTERS) return err([say('procedureFile.tooLong')]);
  const json = jsonOf(text);
  if (!json.ok) return json;
  const parsed = procedureSchema.safeParse(json.value);
  if (!parsed.success) {
    const places = parsed.error.issues.slice(0, MOST_FAULTS).map((issue) => issue.path.join('.') || '.');
    return err(places.map((where) => say('procedureFile.doesNotFit', { where })));
  }
  const faults = checkProcedure(parsed.data).slice(0, MOST_FAULTS);
  if (faults.length === 0) return ok(parsed.data);
  return err(faults.map((fault) => sayKey(faultKey(fault.code), { where: fault.where, text: fault.text })));
}

/** A procedure as a file for another PC. The source page stays here: neither it nor its digest goes along. */
export function procedureFileText(procedure: Procedure): string {
  const { page: _page, ...source } = procedure.source;
  return `${JSON.stringify({ ...procedure, source }, undefined, 1)}\n`;
}
