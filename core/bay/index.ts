/** The bay: its floor as heights and as a plane, what wheels stand on, light, and room to work in. */
export { type ContactError, type ContactPlane, contactPlane } from './contactPlane.ts';
export {
  combinedFNumber,
  FLATNESS_STEP_MM,
  type FlatnessEdition,
  type FlatnessLine,
  flatnessOfLine,
  LEAST_HEIGHTS,
  type LineSpread,
  type LineTooShort,
} from './flatness.ts';
export {
  type FloorError,
  type FloorPlane,
  fitFloorPlane,
  heightsAbovePlane,
  planeHeightMm,
  planeNormal,
} from './floorPlane.ts';
export {
  type FloorHeights,
  type FloorQueryError,
  floorHeights,
  largestBends,
  type NamedPlace,
  residualAt,
} from './floorSurface.ts';
export {
  type FloorSurvey,
  type SurveyError,
  type SurveyedFloor,
  surveyedFloor,
  surveyHeights,
} from './floorSurvey.ts';
export {
  type Illuminance,
  illuminance,
  type LightError,
  type LuxMeterClass,
  luxUncertainty,
} from './light.ts';
export {
  FIVE_POINTS,
  type LightFound,
  type LightLimits,
  type LightQuantity,
  type LightReadings,
  type LightVerdictError,
  lightFound,
} from './lightVerdict.ts';
export { type FloorPlace, type ResidualSurface, residualSurface } from './residualSurface.ts';
export { fitAt, type ParkingPlace, placed, type SpaceFinding, type SpaceFit, spaceFit } from './space/fit.ts';
export {
  type BestParking,
  bestParking,
  PARKING_STEP_MM,
  type ParkingError,
  type ParkingLimits,
  type Range,
} from './space/parking.ts';
export { type Polygon, type PolygonFault, polygonFault, signedArea } from './space/polygon.ts';
export {
  type Bay,
  type Obstacle,
  prepareBay,
  prepareParts,
  rollingStrip,
  type SpaceError,
  type SpaceKind,
  type SpacePart,
  WALLS,
} from './space/room.ts';
export { fitSentences, parkingSentence, type SpaceSentence } from './space/spaceWords.ts';
export { floorFallMm, floorHeightMm, floorRiseMm } from './staff.ts';
export { type FloorSpot, type Standing, standingOn } from './standing.ts';
export {
  largestGap,
  type ProfilePoint,
  type StraightedgeError,
  type StraightedgeGap,
} from './straightedge.ts';
export {
  type ContactReading,
  SUPPORT_KINDS,
  type SupportCaution,
  type SupportError,
  type SupportedContacts,
  type SupportKind,
  supportCaution,
  supportedContacts,
} from './support.ts';
export { type SurveyFlatness, surveyFlatness } from './surveyFlatness.ts';
export {
  type Day,
  type SpotFloor,
  type SpotHeight,
  type SpotSurvey,
  type SpotSurveyError,
  type SurveyStandingError,
  type SurveyTerm,
  spotFloor,
  surveyStanding,
} from './surveyValidity.ts';
export { type Trouble, troubleOf, type WordedCode } from './trouble.ts';
export {
  bestWeights,
  type Known,
  type KnownHeight,
  type KnownPlane,
  knownPlane,
  knownPlaneHeight,
  slopesOf,
  slopeToward,
} from './weightedPlane.ts';
export { type AtWheels, atWheels, WHEEL_NAMES, type WheelName, wheelList } from './wheels.ts';
