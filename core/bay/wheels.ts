/** Four things, one at each wheel: the shape in which heights, radii and readings at the wheels travel. */

/** One at each wheel: front left, front right, rear left, rear right; the car's own sides. */
export interface AtWheels<T> {
  readonly FL: T;
  readonly FR: T;
  readonly RL: T;
  readonly RR: T;
}

/** A wheel. */
export type WheelName = keyof AtWheels<unknown>;

/** The wheels in the order every list of four here has. */
export const WHEEL_NAMES = ['FL', 'FR', 'RL', 'RR'] as const satisfies readonly WheelName[];

/** The four in their order. */
export function wheelList<T>(four: AtWheels<T>): readonly [T, T, T, T] {
  return [four.FL, four.FR, four.RL, four.RR];
}

/** Four made from the wheels' names. */
export function atWheels<T>(make: (wheel: WheelName, index: number) => T): AtWheels<T> {
  return { FL: make('FL', 0), FR: make('FR', 1), RL: make('RL', 2), RR: make('RR', 3) };
}
