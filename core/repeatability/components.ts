/** What a repeatability study says the spread is made of, in the words of the trade and as numbers. */

/** One part of the spread. */
export interface Component {
  /** In the square of the readings' unit; never negative: an estimate below nothing is nothing. */
  readonly variance: number;
  /** Its square root, in the readings' unit. */
  readonly sigma: number;
  /** Share of the total variance, 0 to 1. */
  readonly contribution: number;
  /** Share of the total sigma, 0 to 1; these do not add up to 1. */
  readonly ofTotal: number;
}

/** The parts. EV, AV, interaction, GRR, PV, TV of the AIAG manual, in this order. */
export interface Components {
  /** Same person, same set-up (equipment variation). */
  readonly repeatability: Component;
  /** Between people (appraiser variation). */
  readonly reproducibility: Component;
  /** People who differ on some parts only. */
  readonly interaction: Component;
  /** The measuring as a whole. */
  readonly measuring: Component;
  /** Between the parts or set-ups themselves. */
  readonly parts: Component;
  readonly total: Component;
  /** Classes of parts the measuring can tell apart, 1.41 parts / measuring, before it is cut to a whole number. */
  readonly exactCategories: number;
  /** The same cut to a whole number, never below 1 (AIAG MSA, 4th ed., chapter III, ndc). */
  readonly categories: number;
}

/** The manual's factor, root two as printed. */
const CATEGORIES = 1.41;

/** Puts variances together. Negative estimates of small components are set to nothing before they are summed. */
export function componentsOf(variances: {
  readonly repeatability: number;
  readonly reproducibility: number;
  readonly interaction: number;
  readonly parts: number;
}): Components {
  const repeatability = Math.max(0, variances.repeatability);
  const reproducibility = Math.max(0, variances.reproducibility);
  const interaction = Math.max(0, variances.interaction);
  const parts = Math.max(0, variances.parts);
  const measuring = repeatability + reproducibility + interaction;
  const total = measuring + parts;
  const component = (variance: number): Component => ({
    variance,
    sigma: Math.sqrt(variance),
    contribution: total === 0 ? 0 : variance / total,
    ofTotal: total === 0 ? 0 : Math.sqrt(variance / total),
  });
  const exactCategories =
    measuring === 0 ? Number.POSITIVE_INFINITY : CATEGORIES * Math.sqrt(parts / measuring);
  return {
    repeatability: component(repeatability),
    reproducibility: component(reproducibility),
    interaction: component(interaction),
    measuring: component(measuring),
    parts: component(parts),
    total: component(total),
    exactCategories,
    categories: Math.max(1, Math.floor(exactCategories)),
  };
}
