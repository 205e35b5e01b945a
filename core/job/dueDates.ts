/**
 * Everything a job measures with, and until when each piece's check holds. Work with a piece whose check was due is not
 * forbidden, but it needs a reason, which is printed. The day that counts is the last on which something was read.
 */
import type { Equipment } from './equipment.ts';
import type { FieldPlace } from './fieldKey.ts';
import type { Job } from './job.ts';
import { localDay } from './localTime.ts';

/** One piece of equipment of a job. */
export interface UsedPiece {
  readonly id: string;
  readonly name: string;
  readonly serial: string;
  readonly kind: 'fixture' | 'target' | 'sideArm' | 'instrument';
  readonly dueOn: string;
  /** True when the check was due before the day of the work; its last day counts. */
  readonly overdue: boolean;
  /** True when nothing says to what it was compared. */
  readonly withoutCertificate: boolean;
}

/** The day of the work: of the last reading, or of the opening while nothing was read. */
export function workDay(job: Pick<Job, 'opened' | 'readings'>): string {
  const last = job.readings.reduce(
    (stamp, reading) => (reading.stamp.utcMs > stamp.utcMs ? reading.stamp : stamp),
    job.opened,
  );
  return localDay(last.utcMs, last.offsetMin);
}

function piecesOf(equipment: Equipment, day: string): readonly UsedPiece[] {
  const { fixture, target, sideArms, instruments } = equipment;
  const listed = [
    { kind: 'fixture' as const, piece: fixture },
    { kind: 'target' as const, piece: target },
    ...sideArms.map((piece) => ({ kind: 'sideArm' as const, piece })),
    ...instruments.map((piece) => ({ kind: 'instrument' as const, piece })),
  ];
  return listed.map(({ kind, piece: { id, name, serial, dueOn, certificate } }) => ({
    id,
    name,
    serial,
    kind,
    dueOn,
    overdue: dueOn < day,
    withoutCertificate: certificate.trim() === '',
  }));
}

/** The pieces all sensors of a job are measured with, each once, in the order they were chosen. */
export function usedPieces(job: Pick<Job, 'opened' | 'readings' | 'sensors'>): readonly UsedPiece[] {
  const day = workDay(job);
  const all = job.sensors.flatMap(({ equipment, disposition }) =>
    equipment === null || disposition !== 'staticHere' ? [] : piecesOf(equipment, day),
  );
  return all.filter((piece, index) => all.findIndex((each) => each.id === piece.id) === index);
}

/** The place of a field that belongs to one piece of equipment, whichever sensors it serves. */
export function atPiece(id: string): FieldPlace {
  return { sensor: null, station: null, item: id };
}
