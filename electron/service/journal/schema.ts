/**
 * The store's tables, as steps. A released step is never edited: a change is a new step, ten higher.
 *
 * `event` holds one text per event; every other column is computed from it. The triggers stop mistakes, not a person
 * with a hex editor: evidence comes from the chains. `head` says what the last event was, so that a changed last event,
 * which no successor vouches for, is noticed too. The tables of the job list can be thrown away at any time.
 */
import { type MigrationStep, STORE_MAGIC } from './format.ts';

const EVENT = `
  CREATE TABLE command (
    commandId TEXT PRIMARY KEY NOT NULL,
    job TEXT NOT NULL,
    entries INTEGER NOT NULL CHECK (entries > 0)
  ) STRICT, WITHOUT ROWID;

  CREATE TABLE event (
    id INTEGER PRIMARY KEY,
    text TEXT NOT NULL CHECK (json_valid(text)),
    job TEXT NOT NULL GENERATED ALWAYS AS (json_extract(text, '$.job')) VIRTUAL,
    seq INTEGER NOT NULL GENERATED ALWAYS AS (json_extract(text, '$.seq')) VIRTUAL,
    storeSeq INTEGER NOT NULL GENERATED ALWAYS AS (json_extract(text, '$.storeSeq')) VIRTUAL,
    type TEXT NOT NULL GENERATED ALWAYS AS (json_extract(text, '$.type')) VIRTUAL,
    utcMs INTEGER NOT NULL GENERATED ALWAYS AS (json_extract(text, '$.at.utcMs')) VIRTUAL,
    commandId TEXT NOT NULL GENERATED ALWAYS AS (json_extract(text, '$.commandId')) VIRTUAL
      REFERENCES command (commandId),
    CHECK (id = storeSeq),
    UNIQUE (job, seq),
    UNIQUE (storeSeq)
  ) STRICT;
  CREATE INDEX event_by_command ON event (commandId);
  CREATE INDEX event_by_type ON event (type);
`;

const EVENT_TRIGGERS = `
  CREATE TRIGGER event_no_update BEFORE UPDATE ON event
    BEGIN SELECT RAISE (ABORT, 'an event is never changed'); END;
  CREATE TRIGGER event_no_delete BEFORE DELETE ON event
    BEGIN SELECT RAISE (ABORT, 'an event is never deleted'); END;
  CREATE TRIGGER event_no_existing_key BEFORE INSERT ON event
    WHEN EXISTS (SELECT 1 FROM event WHERE id = NEW.storeSeq OR (job = NEW.job AND seq = NEW.seq))
    BEGIN SELECT RAISE (ABORT, 'an event with this number exists'); END;
  CREATE TRIGGER event_no_gap BEFORE INSERT ON event
    WHEN NEW.storeSeq <> (SELECT coalesce(max(id), 0) + 1 FROM event)
      OR NEW.seq <> (SELECT coalesce(max(seq), 0) + 1 FROM event WHERE job = NEW.job)
    BEGIN SELECT RAISE (ABORT, 'an event must follow the last one'); END;
  CREATE TRIGGER event_command_complete BEFORE INSERT ON event
    WHEN (SELECT count(*) FROM event WHERE commandId = NEW.commandId)
      >= (SELECT entries FROM command WHERE commandId = NEW.commandId)
    BEGIN SELECT RAISE (ABORT, 'this command has been recorded'); END;

  CREATE TRIGGER command_no_update BEFORE UPDATE ON command
    BEGIN SELECT RAISE (ABORT, 'a command is never changed'); END;
  CREATE TRIGGER command_no_delete BEFORE DELETE ON command
    BEGIN SELECT RAISE (ABORT, 'a command is never deleted'); END;
  CREATE TRIGGER command_no_existing_key BEFORE INSERT ON command
    WHEN EXISTS (SELECT 1 FROM command WHERE commandId = NEW.commandId)
    BEGIN SELECT RAISE (ABORT, 'this command has been recorded'); END;
`;

const IDENTITY = `
  CREATE TABLE store (
    one INTEGER PRIMARY KEY CHECK (one = 1),
    magic TEXT NOT NULL CHECK (magic = '${STORE_MAGIC}'),
    id TEXT NOT NULL,
    createdUtcMs INTEGER NOT NULL
  ) STRICT;
  CREATE TRIGGER store_no_update BEFORE UPDATE ON store
    BEGIN SELECT RAISE (ABORT, 'a store keeps its identity'); END;
  CREATE TRIGGER store_no_delete BEFORE DELETE ON store
    BEGIN SELECT RAISE (ABORT, 'a store keeps its identity'); END;

  CREATE TABLE head (
    one INTEGER PRIMARY KEY CHECK (one = 1),
    storeSeq INTEGER NOT NULL,
    hash TEXT NOT NULL
  ) STRICT;
`;

const BESIDE_THE_CHAIN = `
  CREATE TABLE personal (
    id TEXT PRIMARY KEY NOT NULL,
    job TEXT NOT NULL,
    salt BLOB NOT NULL CHECK (length(salt) = 32),
    text TEXT NOT NULL
  ) STRICT, WITHOUT ROWID;
  CREATE INDEX personal_by_job ON personal (job);
  CREATE TRIGGER personal_no_update BEFORE UPDATE ON personal
    BEGIN SELECT RAISE (ABORT, 'a personal text is erased or kept, never changed'); END;
  CREATE TRIGGER personal_no_existing_key BEFORE INSERT ON personal
    WHEN EXISTS (SELECT 1 FROM personal WHERE id = NEW.id)
    BEGIN SELECT RAISE (ABORT, 'a personal text with this id exists'); END;

  CREATE TABLE draft (
    job TEXT NOT NULL,
    field TEXT NOT NULL,
    text TEXT NOT NULL,
    savedAtUtcMs INTEGER NOT NULL,
    PRIMARY KEY (job, field)
  ) STRICT, WITHOUT ROWID;
`;

const PROJECTIONS = `
  CREATE TABLE job_row (
    job TEXT PRIMARY KEY NOT NULL,
    seq INTEGER NOT NULL,
    hash TEXT NOT NULL,
    updatedUtcMs INTEGER NOT NULL,
    row TEXT NOT NULL
  ) STRICT, WITHOUT ROWID;
  CREATE INDEX job_row_by_time ON job_row (updatedUtcMs);

  CREATE TABLE projection (
    one INTEGER PRIMARY KEY CHECK (one = 1),
    edition INTEGER NOT NULL,
    storeSeq INTEGER NOT NULL,
    hash TEXT NOT NULL
  ) STRICT;
`;

/**
 * The job list since format 20. `job_row.id` is the number of the job's last event; `search` is folded text, indexed by
 * pieces of three characters in `job_text`. The other indexes hold it so that it is read without the rows.
 */
export const LIST_TABLES = `
  CREATE TABLE job_row (
    id INTEGER PRIMARY KEY,
    job TEXT NOT NULL UNIQUE,
    seq INTEGER NOT NULL,
    hash TEXT NOT NULL,
    waitsFor TEXT NOT NULL,
    search TEXT NOT NULL,
    row TEXT NOT NULL
  ) STRICT;
  CREATE INDEX job_row_by_waiting ON job_row (waitsFor, id, search);
  CREATE INDEX job_row_by_text ON job_row (id, search);
  CREATE VIRTUAL TABLE job_text USING fts5 (
    search, content = 'job_row', content_rowid = 'id', tokenize = 'trigram case_sensitive 1'
  );

  CREATE TABLE certificate_row (
    number TEXT NOT NULL,
    edition INTEGER NOT NULL,
    job TEXT NOT NULL,
    issued INTEGER NOT NULL CHECK (issued IN (0, 1)),
    PRIMARY KEY (number, edition)
  ) STRICT, WITHOUT ROWID;
  CREATE INDEX certificate_row_by_job ON certificate_row (job);
  CREATE INDEX certificate_row_unissued ON certificate_row (job) WHERE issued = 0;

  CREATE TABLE projection (
    one INTEGER PRIMARY KEY CHECK (one = 1),
    edition INTEGER NOT NULL,
    storeSeq INTEGER NOT NULL,
    hash TEXT NOT NULL
  ) STRICT;
`;

/** All steps from an empty file to the present format. */
export const steps: readonly MigrationStep[] = [
  {
    version: 10,
    run(db, birth) {
      db.exec(EVENT + EVENT_TRIGGERS + IDENTITY + BESIDE_THE_CHAIN + PROJECTIONS);
      db.prepare('INSERT INTO store (one, magic, id, createdUtcMs) VALUES (1, ?, ?, ?)').run(
        STORE_MAGIC,
        birth.storeId,
        birth.utcMs,
      );
      db.prepare('INSERT INTO head (one, storeSeq, hash) VALUES (1, 0, ?)').run(birth.genesis);
    },
  },
  {
    version: 20,
    run(db) {
      db.exec(`DROP TABLE job_row; DROP TABLE projection; ${LIST_TABLES}`);
    },
  },
];
