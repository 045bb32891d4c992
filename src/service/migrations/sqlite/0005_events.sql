-- What was done with what is kept, and since when an enquiry is past its day.

-- Told by time and kind alone: no name, no reference, no address, no secret.
CREATE TABLE events (
    id INTEGER PRIMARY KEY,
    at TEXT NOT NULL,
    kind TEXT NOT NULL,
    -- How many enquiries it is about; 1 where it is about none.
    number INTEGER NOT NULL DEFAULT 1
) STRICT;

CREATE INDEX events_of ON events (kind, at);

-- When housekeeping first found that the enquiry's day was past, by a clock that may have been wrong; none as long as it is not.
ALTER TABLE enquiries ADD COLUMN past_since TEXT;
