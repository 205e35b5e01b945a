/** Rehearsing in a simulated bay. */
export const REHEARSAL = {
  'rehearsal.start': 'Rehearse',
  'rehearsal.starting': 'Opening ...',
  'rehearsal.tag': 'Rehearsal',
  'rehearsal.shows': 'Read it and type it; a touch types it for you',
  'rehearsal.fixture': 'The fixture, as you stand',
  'rehearsal.plan': 'Car at the top, the fixture before it: drag it, or turn it by its end',
  'rehearsal.step': '{mm} mm',
  'rehearsal.toward': 'Toward the car',
  'rehearsal.away': 'Away from the car',
  'rehearsal.toCarLeft': "To the car's left",
  'rehearsal.toCarRight': "To the car's right",
  'rehearsal.leftEndToward': "Car's-left end toward the car",
  'rehearsal.leftEndAway': "Car's-left end away from the car",
  'rehearsal.moveAsAsked': 'Move it as asked',
  'rehearsal.moved': 'Moved: now press Done',
  'rehearsal.tell': 'The program does not see this fixture. After moving it press Done, or Fixture moved.',
} as const;
