/**
 * The light on the target from five readings of a job, judged against what its procedures ask for. Average, darkest place and
 * uniformity are facts of the record too, so that a certificate prints them without knowing where they came from.
 */
import type { Illuminance, LuxMeterClass } from '../bay/light.ts';
import { illuminance } from '../bay/light.ts';
import { FIVE_POINTS, type LightFound, type LightVerdictError, lightFound } from '../bay/lightVerdict.ts';
import type { BayNeeds } from '../procedure/schema.ts';
import type { Result } from '../result.ts';
import type { Job } from './job.ts';

/** The five places in the order they are read: upper corners, lower corners, middle. */
export const LIGHT_FIELDS = ['bay.light1', 'bay.light2', 'bay.light3', 'bay.light4', 'bay.light5'] as const;

/** Spread of one reading by hand, as a share of it (common practice, no source). */
const REPEATABILITY = 0.02;

/** The class of the meter; the widest one where nobody said. */
export function meterClassOf(job: Pick<Job, 'fields'>): LuxMeterClass {
  const value = job.fields['bay.luxMeterClass']?.value;
  return value === 'L' || value === 'A' || value === 'B' ? value : 'C';
}

/** The readings there are, in their order, lux. */
export function luxOf(job: Pick<Job, 'fields'>): readonly number[] {
  return LIGHT_FIELDS.flatMap((field) => {
    const value = job.fields[field]?.value;
    return typeof value === 'number' ? [value] : [];
  });
}

/** Mean, darkest and uniformity once all five are read; `changed` is a reading that is about to be recorded. */
export function lightSummary(
  job: Pick<Job, 'fields'>,
  changed?: { readonly field: string; readonly lux: number },
): Illuminance | undefined {
  const lux = LIGHT_FIELDS.flatMap((field) => {
    const value = field === changed?.field ? changed.lux : job.fields[field]?.value;
    return typeof value === 'number' ? [value] : [];
  });
  if (lux.length < FIVE_POINTS) return undefined;
  const summed = illuminance(lux);
  return summed.ok ? summed.value : undefined;
}

/** The light with its verdicts; an error while places are missing. */
export function lightJudged(
  job: Pick<Job, 'fields' | 'decisionRule'>,
  needs: BayNeeds | undefined,
): Result<LightFound, LightVerdictError> {
  const { leastMean, mostMean, leastLowest, leastUniformity } = needs?.light ?? {};
  return lightFound(
    { lux: luxOf(job), meterClass: meterClassOf(job), repeatability: REPEATABILITY },
    {
      ...(leastMean === undefined ? {} : { leastMean }),
      ...(mostMean === undefined ? {} : { mostMean }),
      ...(leastLowest === undefined ? {} : { leastLowest }),
      ...(leastUniformity === undefined ? {} : { leastUniformity }),
    },
    job.decisionRule,
  );
}
