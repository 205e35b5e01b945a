/** Whole jobs made of events: a layout read without a fault, stand by stand, as a technician would record it. */
import type { Equipment } from '../../../core/job/equipment.ts';
import { type EventType, type Payload, payloadSchema } from '../../../core/job/events.ts';
import type { Job } from '../../../core/job/job.ts';
import { type JobEvent, reduce } from '../../../core/job/reduce.ts';
import type { PlacementEquipment } from '../../../core/placement/equipment.ts';
import { defaultRecipe, type ReadingSpec, specOf } from '../../../core/placement/recipe.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';
import type { Procedure, ProcedureStation } from '../../../core/procedure/schema.ts';
import { type TrueLayout, trueReadings } from '../../../core/rehearsal/trueBay.ts';
import { degFromRad } from '../../../core/units.ts';
import { EQUIPMENT } from '../placement/trueLayout.ts';

const traced = { serial: 'X', certificate: 'X', dueOn: '2030-01-01' };

/** The tests' fixture as a shop's record has it. */
export function equipmentOf(equipment: PlacementEquipment = EQUIPMENT): Equipment {
  const { fixture, sideArms } = equipment;
  return {
    work: equipment.work,
    fixture: {
      ...traced,
      id: 'bar',
      name: 'Bar',
      endMarks: ['A', 'B'],
      barLengthMm: fixture.barLength.mm,
      barLengthUMm: fixture.barLength.uMm,
      faceAheadMm: fixture.face.outMm,
      faceAboveBarMm: fixture.face.upMm,
      faceUMm: fixture.face.uMm,
      ...(fixture.kinematics === undefined ? {} : { kinematics: fixture.kinematics }),
    },
    target: { ...traced, id: 'board', name: 'Board', widthMm: 1200, heightMm: 800 },
    sideArms: (['left', 'right'] as const).map((side) => ({
      ...traced,
      id: `arm-${side}`,
      name: 'Arm',
      side,
      lengthMm: sideArms[side].mm,
      uMm: sideArms[side].uMm,
    })),
    instruments: [
      {
        ...traced,
        id: 'tape',
        name: 'Tape',
        kind: 'tape',
        accuracyClass: 'II',
        resolution: 1,
        startsAt: 'zero',
        numbersIn: 'mm',
      },
    ],
  };
}

const twoSided = (limit: string) => ({ kind: 'twoSided', limit }) as const;

/** A station of a procedure that asks for what a requirement asks for, with limits of 10 mm and half a degree. */
export function stationText(station: StationRequirement): ProcedureStation {
  const length = (mm: number) => `${mm} mm`;
  const angle = (rad: number) => `${degFromRad(rad)} deg`;
  return {
    id: station.id,
    name: station.id,
    kind: station.kind,
    place: station.place,
    ahead: { value: length(station.ahead.value), from: station.ahead.from, tolerance: twoSided('10 mm') },
    left: { value: length(station.left.value), from: station.left.from, tolerance: twoSided('10 mm') },
    up: { value: length(station.up.value), from: 'contactPlane', tolerance: twoSided('10 mm') },
    yaw: { value: angle(station.yaw.value), from: station.yaw.from, tolerance: twoSided('0.5 deg') },
    pitch: { value: angle(station.pitch.value), from: 'contactPlane', tolerance: twoSided('0.5 deg') },
    roll: { value: angle(station.roll.value), from: 'contactPlane', tolerance: twoSided('0.5 deg') },
    free: [...(station.free ?? [])],
    capturePrompt: '',
  };
}

/** A fictional procedure of these stations. */
export function procedureOf(stations: readonly StationRequirement[]): Procedure {
  return {
    format: 'datumline-procedure-1',
    id: 'made',
    edition: 1,
    title: 'Made',
    fictional: true,
    sensor: 'forwardCamera',
    applicability: { make: 'Made', models: ['One'], fromYear: 2024, toYear: null },
    inputs: [],
    conditions: [],
    target: { kind: 'board', widthMm: 1200, heightMm: 800, name: 'Board' },
    sensorAt: { ahead: '1800 mm', left: '0', up: '1300 mm' },
    stations: stations.map(stationText),
    steps: [],
    decisionRule: null,
    source: {
      document: 'Sheet',
      section: '1',
      readOn: '2026-01-12',
      enteredBy: 'A',
      reviewedBy: 'B',
      reviewWay: 'secondPerson',
    },
  };
}

/** Writes a job's events one after the other, each through its strict schema. */
export class Journal {
  readonly events: JobEvent[] = [];
  private utcMs = Date.UTC(2026, 10, 25, 9);

  /** Lets time pass before the next event. */
  wait(ms: number): void {
    this.utcMs += ms;
  }

  add<T extends EventType>(type: T, payload: Payload<T>): void {
    const event = {
      job: 'made',
      seq: this.events.length + 1,
      type,
      at: { utcMs: this.utcMs, offsetMin: 60 },
      person: 'p1',
      payload: payloadSchema(type).parse(payload),
    };
    this.events.push(event as unknown as JobEvent);
    this.utcMs += 1000;
  }

  get job(): Job {
    const job = reduce(this.events);
    if (job === undefined) throw new Error('no job');
    return job;
  }

  /** Opens a job with one sensor, its procedure and its equipment. */
  open(stations: readonly StationRequirement[], equipment: Equipment = equipmentOf()): void {
    const reference = 'MADE';
    this.add('jobOpened', { reference, demo: true, bay: 'b1', decisionRule: 'guarded', follows: null });
    this.add('sensorListed', { sensor: 'fc', kind: 'forwardCamera', name: 'Camera' });
    this.add('sensorDisposed', { sensor: 'fc', disposition: 'staticHere', source: '' });
    this.add('procedureChosen', { sensor: 'fc', procedure: procedureOf(stations) });
    this.add('equipmentChosen', { sensor: 'fc', equipment });
  }

  /** Records the readings of a layout whose slot key passes, in the present set-ups, with the tape where one is used. */
  read(
    layout: TrueLayout,
    stations: readonly StationRequirement[],
    passes: (key: string, spec: ReadingSpec) => boolean = () => true,
    near: 'ahead' | 'behind' = 'ahead',
  ): void {
    const recipe = defaultRecipe({ stations });
    const { setUps } = this.job;
    for (const [key, { value, direction }] of Object.entries(trueReadings(layout, EQUIPMENT, near))) {
      const [idAt = '', purpose] = key.split('!');
      const [id = '', station] = idAt.split('@');
      const slot = { id, purpose: purpose === 'control' ? 'control' : 'proof' } as const;
      const spec = specOf(recipe, station === undefined ? slot : { ...slot, station });
      if (spec === undefined || !passes(key, spec)) continue;
      this.add('readingRecorded', {
        reading: `r${this.events.length}`,
        quantity: id,
        sensor: spec.stage === 'bay' || spec.stage === 'datum' ? null : 'fc',
        station: station ?? null,
        value,
        unit: spec.unit === 'deg' ? 'rad' : 'mm',
        direction: direction ?? null,
        text: String(value).slice(0, 20),
        instrument: spec.instrument === 'tape' ? 'tape' : null,
        purpose: slot.purpose,
        carSetUp: setUps.car,
        fixtureSetUp: setUps.fixture,
      });
    }
  }
}

/** Readings of the fixture and of the floor under it: those of one stand. */
export const ofStand = (_key: string, spec: ReadingSpec): boolean =>
  spec.dependsOn.includes('fixture') || spec.id.startsWith('floor.fixture');
