-- The journal of Schema/005 for a server.
ALTER TABLE ram ADD COLUMN removed_of bigint REFERENCES ram (id);

CREATE TABLE journal (
    id bigint PRIMARY KEY GENERATED ALWAYS AS IDENTITY,
    ram bigint NOT NULL REFERENCES ram (id),
    at_us bigint NOT NULL,
    who text NOT NULL,
    what text NOT NULL,
    burst bigint,
    was_us bigint NOT NULL,
    is_us bigint,
    was text NOT NULL,
    becomes text,
    why text NOT NULL
);
CREATE INDEX journal_by_ram ON journal (ram, id);
