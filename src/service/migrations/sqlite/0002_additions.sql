-- What a homeowner adds after sending: photographs, and answers that the installer asked for by a link.

-- SHA-256 of the secret with which photographs may be added; none where the form that sent the enquiry made none.
ALTER TABLE enquiries ADD COLUMN addition_hash TEXT;

-- What is said of a photo that came later, as JSON; none where the record itself lists it.
ALTER TABLE photos ADD COLUMN added TEXT;

ALTER TABLE corrections ADD COLUMN said_by TEXT NOT NULL DEFAULT 'installer'
    CONSTRAINT corrections_said_by CHECK (said_by IN ('installer', 'homeowner'));

-- Links that ask for answers. Only hashes of their tokens are kept: who reads this table can't open one.
CREATE TABLE links (
    token_hash TEXT NOT NULL CONSTRAINT links_token PRIMARY KEY,
    client_key TEXT NOT NULL REFERENCES enquiries (client_key) ON DELETE CASCADE,
    -- The names of the questions, with a space between them.
    questions TEXT NOT NULL
) STRICT;

CREATE INDEX links_of ON links (client_key);
