/** Texts of a form of their own: fault codes, a moment of the bay's clock, a tyre size. */
import type { ReactNode } from 'react';
import { NO_CODES, parseMoment } from '../../../core/entry/index.ts';
import { type TypedValue, typedValue } from '../../../core/job/facts.ts';
import { err, ok } from '../../../core/result.ts';
import { formatMm } from '../../../core/units.ts';
import { parseTyreSize, tyreDiameterMm } from '../../../core/vehicle/index.ts';
import { say } from '../../../core/words/index.ts';
import { localNowMs } from '../../state/localNow.ts';
import { ParsedField } from './ParsedField.tsx';
import type { StageFieldProps } from './StageField.tsx';

const asText = (value: TypedValue): string => (typeof value === 'string' ? value : '');
const asList = (value: TypedValue): string => (Array.isArray(value) ? value.join(', ') : '');

export function CodesField({ held, field, place }: StageFieldProps): ReactNode {
  return (
    <ParsedField
      held={held}
      field={field}
      at={place.at}
      parse={(text) => typedValue({ kind: 'codes' }, text)}
      tidy={asList}
      tap={{ words: say('codes.none'), text: () => NO_CODES }}
    />
  );
}

export function MomentField({ held, field, place }: StageFieldProps): ReactNode {
  return (
    <ParsedField
      held={held}
      field={field}
      at={place.at}
      parse={(text) => parseMoment(text, localNowMs())}
      tidy={asText}
    />
  );
}

export function TyreSizeField({ held, field, place }: StageFieldProps): ReactNode {
  return (
    <ParsedField
      held={held}
      field={field}
      at={place.at}
      parse={(text) => {
        const size = parseTyreSize(text);
        if (size.ok) return ok(text.trim().toUpperCase());
        const key = size.error.code === 'vehicle/tyreUnreadable' ? 'unreadable' : 'implausible';
        return err({ key: `tyreSize.${key}`, values: {} });
      }}
      tidy={asText}
      below={(text) => {
        const size = parseTyreSize(text);
        if (!size.ok) return null;
        return (
          <span className="quiet">
            {say('tyreSize.diameter', { diameter: formatMm(tyreDiameterMm(size.value), 0) })}
          </span>
        );
      }}
    />
  );
}
