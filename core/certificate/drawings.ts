/** The drawings of a sensor's placement, to scale on paper: the plan, and the side view on the true floor. */
import { elevationScene } from '../drawing/elevation.ts';
import { floorFromStaff } from '../drawing/elevationModel.ts';
import { planScene } from '../drawing/plan.ts';
import type { PlanRequest } from '../drawing/planModel.ts';
import type { Scene } from '../drawing/scene.ts';
import { fixtureShape } from '../job/equipment.ts';
import { staffReadings } from '../job/fixtureScale.ts';
import type { JobSensor } from '../job/job.ts';
import { placementInput } from '../job/solve.ts';
import type { VehicleFound } from '../placement/found.ts';
import type { PlacementAnswer } from '../placement/placementAnswer.ts';
import { say } from '../words/index.ts';
import { GUARD } from './coordinateText.ts';
import type { DocumentSection, SceneBlock } from './document.ts';
import type { CertificateInput } from './input.ts';

/** Heights on paper, mm: both stand on one page with their heading. */
const HEIGHT_MM = { plan: 132, side: 64 } as const;
/** Inside the margins of A4, mm. */
const WIDTH_MM = 180;
/** Size of labels on paper, points. */
const TEXT_PT = 7.5;
const PT_PER_MM = 72 / 25.4;

function requestOf(
  input: CertificateInput,
  sensor: JobSensor,
  answer: PlacementAnswer,
  heightMm: number,
): PlanRequest {
  const { equipment } = sensor;
  const placement = placementInput(input.job, sensor);
  const arm = equipment?.sideArms[0]?.lengthMm;
  return {
    sheet: { widthPt: WIDTH_MM * PT_PER_MM, heightPt: heightMm * PT_PER_MM },
    textPt: TEXT_PT,
    view: 'asIStand',
    decimalSign: '.',
    unit: 'mm',
    answer,
    stations: placement.ok ? placement.value.stations : [],
    recipe: [],
    taken: [],
    guardFactor: GUARD[input.job.decisionRule],
    medium: 'paper',
    ...(equipment === null ? {} : { fixture: fixtureShape(equipment) }),
    ...(arm === undefined ? {} : { sideArmMm: arm }),
  };
}

function sideView(
  input: CertificateInput,
  sensor: JobSensor,
  answer: PlacementAnswer,
  vehicle: VehicleFound,
): Scene {
  const request = requestOf(input, sensor, answer, HEIGHT_MM.side);
  const fixtureAheadMm = answer.fixture?.bar.aheadMm;
  if (fixtureAheadMm === undefined) return elevationScene(request);
  const floor = floorFromStaff(staffReadings(input.job), vehicle.wheelbase.value, fixtureAheadMm);
  return elevationScene({ ...request, floor });
}

function block(scene: Scene, caption: string, heightMm: number): SceneBlock {
  const altText = say('certificate.scene.alt', { title: scene.title, description: scene.description });
  return { block: 'scene', scene, altText, caption, heightMm };
}

/** Plan and side view of one sensor; absent where not even the car was found. */
export function drawingSection(
  input: CertificateInput,
  sensor: JobSensor,
  answer: PlacementAnswer,
): readonly DocumentSection[] {
  const { vehicle } = answer;
  if (vehicle === undefined) return [];
  const plan = planScene(requestOf(input, sensor, answer, HEIGHT_MM.plan));
  const side = sideView(input, sensor, answer, vehicle);
  return [
    {
      heading: say('certificate.section.drawing', { sensor: sensor.name }),
      blocks: [
        block(plan, say('certificate.scene.plan'), HEIGHT_MM.plan),
        block(side, say('certificate.scene.side'), HEIGHT_MM.side),
      ],
    },
  ];
}
