-- What the service keeps. Times are RFC 3339 in UTC, days are ISO 8601: both sort as text.

CREATE TABLE settings (
    name TEXT NOT NULL CONSTRAINT settings_name PRIMARY KEY,
    value TEXT NOT NULL
) STRICT;

CREATE TABLE enquiries (
    client_key TEXT NOT NULL CONSTRAINT enquiries_client_key PRIMARY KEY,
    reference TEXT NOT NULL CONSTRAINT enquiries_reference UNIQUE,
    received TEXT NOT NULL,
    keep_until TEXT NOT NULL,
    deletion_hash TEXT NOT NULL,
    -- The record just as it was sent; read again by `read_enquiry`, so that old versions still open.
    record TEXT NOT NULL,
    -- What the service made of the same answers; none where it could not.
    own_assessment TEXT,
    agreement TEXT NOT NULL CONSTRAINT enquiries_agreement
        CHECK (agreement IN ('equal', 'different', 'not-compared', 'not-assessed')),
    -- One row of the installer's list, as JSON, and what it is sorted by.
    summary TEXT NOT NULL,
    gravity INTEGER NOT NULL,
    weight INTEGER NOT NULL,
    handled INTEGER NOT NULL DEFAULT 0 CONSTRAINT enquiries_handled CHECK (handled IN (0, 1))
) STRICT;

CREATE INDEX enquiries_in_order ON enquiries (handled, gravity, weight, received, client_key);
CREATE INDEX enquiries_by_day ON enquiries (keep_until);

-- The photos that an enquiry lists; their bytes are files named by their hash.
CREATE TABLE photos (
    client_key TEXT NOT NULL REFERENCES enquiries (client_key) ON DELETE CASCADE,
    sha256 TEXT NOT NULL,
    kind TEXT CONSTRAINT photos_kind CHECK (kind IN ('image/jpeg', 'image/webp')),
    CONSTRAINT photos_once PRIMARY KEY (client_key, sha256)
) STRICT;

-- Answers corrected by the installer, beside the original; the latest counts, the earlier stay.
CREATE TABLE corrections (
    id INTEGER PRIMARY KEY,
    client_key TEXT NOT NULL REFERENCES enquiries (client_key) ON DELETE CASCADE,
    at TEXT NOT NULL,
    answers TEXT NOT NULL,
    assessment TEXT NOT NULL
) STRICT;

CREATE INDEX corrections_of ON corrections (client_key, id);

-- Only hashes of tokens are kept: who reads this table can't sign in with it.
CREATE TABLE sessions (
    token_hash TEXT NOT NULL CONSTRAINT sessions_token PRIMARY KEY,
    until TEXT NOT NULL
) STRICT;

-- Browsers that signed in before: their attempts are counted apart from strangers'.
CREATE TABLE known_browsers (
    token_hash TEXT NOT NULL CONSTRAINT known_browsers_token PRIMARY KEY,
    until TEXT NOT NULL
) STRICT;

-- Attempts to sign in that failed or are under way, by who tries.
CREATE TABLE attempts (
    id INTEGER PRIMARY KEY,
    who TEXT NOT NULL,
    at TEXT NOT NULL
) STRICT;

CREATE INDEX attempts_of ON attempts (who, at);
