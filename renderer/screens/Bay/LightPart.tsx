/** Light at five places of the target: the readings, what they come to, and what the procedure asks for. */
import type { ReactNode } from 'react';
import type { LightQuantity } from '../../../core/bay/lightVerdict.ts';
import { FIVE_POINTS } from '../../../core/bay/lightVerdict.ts';
import type { JobSensor } from '../../../core/job/job.ts';
import { LIGHT_FIELDS, lightJudged, lightSummary, luxOf } from '../../../core/job/lightAtFive.ts';
import { formatFixed } from '../../../core/units.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { VerdictMark } from '../../ui/VerdictMark.tsx';
import { BayPart } from './BayPart.tsx';
import { FieldsOf } from './FieldsOf.tsx';
import { useLightSums } from './useLightSums.ts';

function needText(
  least: number | undefined,
  most: number | undefined,
  text: (value: number) => string,
): string | undefined {
  if (least !== undefined && most !== undefined) {
    return say('bay.light.needBetween', { least: text(least), most: text(most) });
  }
  if (least !== undefined) return say('bay.light.needLeast', { limit: text(least) });
  return most === undefined ? undefined : say('bay.light.needMost', { limit: text(most) });
}

function Row({
  label,
  quantity,
  ratio,
  need,
}: {
  readonly label: string;
  readonly quantity: LightQuantity;
  readonly ratio: boolean;
  readonly need: string | undefined;
}): ReactNode {
  const decimals = ratio ? 2 : 0;
  const { decision } = quantity;
  return (
    <section className="sheet bay-light-row">
      <h2 className="overline">{label}</h2>
      <p className="bay-number">
        {say(ratio ? 'bay.light.ratio' : 'bay.light.lux', {
          value: formatFixed(quantity.value, decimals),
          uncertainty: formatFixed(2 * quantity.u, decimals),
        })}
      </p>
      {need === undefined ? null : <p className="quiet">{need}</p>}
      {decision === undefined ? null : (
        <VerdictMark
          kind={decision.verdict}
          words={say(
            `certificate.verdict.${decision.verdict === 'notProven' ? (decision.wording ?? 'within') : decision.verdict}`,
          )}
        />
      )}
    </section>
  );
}

function LightFoundView({
  held,
  sensor,
}: {
  readonly held: HeldJob;
  readonly sensor: JobSensor | undefined;
}): ReactNode {
  const needs = sensor?.procedure?.bay;
  const left = FIVE_POINTS - luxOf(held.job).length;
  const found = lightJudged(held.job, needs);
  if (left > 0 || !found.ok) {
    return (
      <section className="sheet empty" data-testid="light-empty">
        <h2>{say('bay.light.purpose')}</h2>
        <p>{say('bay.light.missing', { count: String(left) })}</p>
      </section>
    );
  }
  const lux = (value: number): string => `${formatFixed(value, 0)} lx`;
  const { light } = needs ?? {};
  return (
    <div className="bay-light" data-testid="light-found">
      <Row
        label={say('bay.light.mean')}
        quantity={found.value.mean}
        ratio={false}
        need={needText(light?.leastMean, light?.mostMean, lux)}
      />
      <Row
        label={say('bay.light.lowest')}
        quantity={found.value.lowest}
        ratio={false}
        need={needText(light?.leastLowest, undefined, lux)}
      />
      <Row
        label={say('bay.light.uniformity')}
        quantity={found.value.uniformity}
        ratio
        need={needText(light?.leastUniformity, undefined, (value) => formatFixed(value, 2))}
      />
      {light === undefined ? <p className="quiet">{say('bay.light.noNeeds')}</p> : null}
    </div>
  );
}

export function LightPart({
  held,
  sensor,
  tabs,
}: {
  readonly held: HeldJob;
  readonly sensor: JobSensor | undefined;
  readonly tabs: ReactNode;
}): ReactNode {
  useLightSums(held, lightSummary(held.job));
  return (
    <BayPart
      tabs={tabs}
      main={
        <>
          <section className="sheet bay-five">
            <FieldsOf held={held} names={LIGHT_FIELDS} />
          </section>
          <LightFoundView held={held} sensor={sensor} />
        </>
      }
    >
      <section className="sheet">
        <FieldsOf held={held} names={['bay.luxMeterClass', 'bay.noReflections', 'bay.noBacklight']} />
      </section>
    </BayPart>
  );
}
