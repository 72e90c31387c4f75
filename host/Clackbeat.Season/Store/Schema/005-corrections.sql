-- What a keeper corrected. A burst that was taken out keeps its rows under a ram of its own, so that nothing is lost and the
-- correction can be undone; the journal says who, when, what was, and why.
ALTER TABLE ram ADD COLUMN removed_of INTEGER REFERENCES ram (id);

CREATE TABLE journal (
    id INTEGER PRIMARY KEY,
    ram INTEGER NOT NULL REFERENCES ram (id),
    at_us INTEGER NOT NULL,
    who TEXT NOT NULL,
    what TEXT NOT NULL,
    burst INTEGER,
    was_us INTEGER NOT NULL,
    is_us INTEGER,
    was TEXT NOT NULL,
    becomes TEXT,
    why TEXT NOT NULL
) STRICT;
CREATE INDEX journal_by_ram ON journal (ram, id);
