-- What a keeper did, so that before and after can be compared.
CREATE TABLE mark (
    id INTEGER PRIMARY KEY,
    ram INTEGER NOT NULL REFERENCES ram (id),
    at_us INTEGER NOT NULL,
    words TEXT NOT NULL,
    UNIQUE (ram, at_us, words)
) STRICT;
