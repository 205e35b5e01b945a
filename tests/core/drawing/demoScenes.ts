/** Every demo drawing by name. */
import { planScene } from '../../../core/drawing/plan.ts';
import type { Scene } from '../../../core/drawing/scene.ts';
import { DEMO_PLANS } from './demoPlans.ts';

/** Composes all demo scenes anew. */
export function demoScenes(): Readonly<Record<string, Scene>> {
  return Object.fromEntries(
    Object.entries(DEMO_PLANS).map(([name, request]) => [`plan-${name}`, planScene(request)]),
  );
}
