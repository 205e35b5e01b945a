import { describe, expect, test } from 'vitest';
import { stages } from '../../../core/job/stages/index.ts';
import { PROCEDURE_ACTS, type Route, routeOf, routeText } from '../../../renderer/state/route.ts';

const job = '0190a1b2-c3d4-7e5f-8a6b-0123456789ab';
const routes: readonly Route[] = [
  { screen: 'home' },
  { screen: 'check' },
  { screen: 'shop' },
  ...PROCEDURE_ACTS.map((act): Route => ({ screen: 'procedure', act, id: 'petrel-front-camera' })),
  { screen: 'procedure', act: 'quick', id: '' },
  { screen: 'job', job, view: 'history' },
  ...stages.map((stage): Route => ({ screen: 'job', job, view: stage.id })),
];

describe('the address says where the person is', () => {
  test.each(routes)('%o comes back from its address', (route) => {
    expect(routeOf(routeText(route))).toEqual(route);
  });

  test.each([
    '',
    '#',
    '#/job',
    '#/job//intake',
    `#/job/${job}/cellar`,
    '#/job/../../etc/intake',
    '#/check/x',
    '#/procedure/burn/it',
    '#/procedure/edit/../x',
  ])('%s is home', (fragment) => {
    expect(routeOf(fragment)).toEqual({ screen: 'home' });
  });
});
