/** The VIN, judged while it is typed. One that cannot be right is not sent by passing through; the person may insist. */
import type { ReactNode } from 'react';
import { vinFromScan } from '../../../core/entry/vinScan.ts';
import type { FieldPlace } from '../../../core/job/fieldKey.ts';
import type { Field } from '../../../core/job/stages/index.ts';
import { checkVin, type VinReport } from '../../../core/vehicle/vin.ts';
import { say } from '../../../core/words/index.ts';
import { typedFact } from '../../state/fieldText.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { TypedField } from './TypedField.tsx';

/** The live line under a VIN: how many characters, whether the check digit fits, for which years it can stand. */
export function vinWords(report: VinReport): string {
  if (report.vin === '') return '';
  const [fault] = [...report.faults, ...report.warnings];
  if (fault !== undefined) return say(fault.key, fault.values);
  const years = report.modelYears.join(' / ');
  return years === '' ? say('vin.line.fits') : say('vin.line.fitsYears', { years });
}

export function VinLine({
  text,
  onTake,
  onKeep,
}: {
  readonly text: string;
  readonly onTake: (vin: string) => void;
  readonly onKeep?: () => void;
}): ReactNode {
  const report = checkVin(text);
  const words = vinWords(report);
  if (words === '') return null;
  const { suggestion } = report;
  return (
    <div className="vin-line" data-standing={report.standing} role="status">
      <span className={report.standing === 'fits' ? 'quiet' : 'vin-doubt'}>{words}</span>
      {suggestion === undefined ? null : (
        <Button onPress={() => onTake(suggestion)}>{say('act.take', { value: suggestion })}</Button>
      )}
      {report.standing === 'refuse' && report.vin.length === 17 && onKeep !== undefined ? (
        <Button onPress={onKeep}>{say('act.keepAsTyped')}</Button>
      ) : null}
    </div>
  );
}

/** The VIN in what was typed or scanned into the field. */
function vinOf(text: string): string {
  const scanned = vinFromScan(text);
  return scanned.ok ? scanned.value.vin : checkVin(text).vin;
}

export function VinField(props: {
  readonly held: HeldJob;
  readonly field: Field;
  readonly at: FieldPlace;
}): ReactNode {
  const { held, field, at } = props;
  const actions = useActions();
  const job = held.job.id;
  return (
    <TypedField
      held={held}
      field={field}
      at={at}
      tidy={vinOf}
      holds={(text) => checkVin(text).standing === 'refuse'}
      below={(text) => (
        <VinLine
          text={text}
          onTake={(vin) => actions.type(job, field.id, vin)}
          onKeep={() => void actions.send(job, field.id, [typedFact(field, at, checkVin(text).vin)])}
        />
      )}
    />
  );
}
