-- 'upper' where a figure can only be an upper bound, such as a delivered flow while a leak is not ruled out; empty or null for a plain figure.
ALTER TABLE figure ADD COLUMN bound TEXT;
