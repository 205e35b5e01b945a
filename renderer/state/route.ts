/** Where the person is in the window, kept in the address so that a reload of the window returns there. */
import { type StageId, stages } from '../../core/job/stages/index.ts';

/** What is done with a procedure: written quickly, anew or again, reviewed, compared; reviewed for another shop. */
export const PROCEDURE_ACTS = ['quick', 'new', 'edit', 'review', 'compare', 'foreign'] as const;
export type ProcedureAct = (typeof PROCEDURE_ACTS)[number];

export type Route =
  | { readonly screen: 'home' }
  | { readonly screen: 'check' }
  | { readonly screen: 'shop' }
  | { readonly screen: 'far' }
  /** `id` is empty where no procedure is there yet. */
  | { readonly screen: 'procedure'; readonly act: ProcedureAct; readonly id: string }
  | { readonly screen: 'job'; readonly job: string; readonly view: StageId | 'history' };

const HOME: Route = { screen: 'home' };

/** The fragment of a route: `#/job/0190.../placement`. */
export function routeText(route: Route): string {
  if (route.screen === 'home') return '#/';
  if (route.screen === 'procedure') {
    return route.id === '' ? `#/procedure/${route.act}` : `#/procedure/${route.act}/${route.id}`;
  }
  if (route.screen !== 'job') return `#/${route.screen}`;
  return `#/job/${route.job}/${route.view}`;
}

/** The route of a fragment; anything unknown is home. */
export function routeOf(fragment: string): Route {
  if (fragment === '#/check') return { screen: 'check' };
  if (fragment === '#/far') return { screen: 'far' };
  if (fragment === '#/shop') return { screen: 'shop' };
  const procedure = /^#\/procedure\/([a-z]+)(?:\/([A-Za-z0-9._-]{1,40}))?$/.exec(fragment);
  const act = PROCEDURE_ACTS.find((each) => each === procedure?.[1]);
  if (act !== undefined) return { screen: 'procedure', act, id: procedure?.[2] ?? '' };
  const match = /^#\/job\/([A-Za-z0-9._-]{1,60})\/([a-z]+)$/.exec(fragment);
  const [, job, view] = match ?? [];
  if (job === undefined || view === undefined) return HOME;
  if (view === 'history') return { screen: 'job', job, view };
  const stage = stages.find((each) => each.id === view);
  return stage === undefined ? HOME : { screen: 'job', job, view: stage.id };
}
