-- How far a burst's start may be off, either way [s]: a lone logger's calendar has bounds, not an instant. Null: nobody said.
ALTER TABLE burst ADD COLUMN start_uncertainty_s double precision;
