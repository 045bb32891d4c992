-- What is told of an enquiry after its arrival, and what is kept of one that became a job.

-- The outbox, made again: one enquiry may have several rows of one way, for what was added to it.
CREATE TABLE outbox_next (
    -- The mail's Message-ID or the webhook's id: the same however often it is tried.
    id TEXT NOT NULL CONSTRAINT outbox_id PRIMARY KEY,
    client_key TEXT NOT NULL REFERENCES enquiries (client_key) ON DELETE CASCADE,
    -- What it tells of.
    what TEXT NOT NULL DEFAULT 'enquiry' CONSTRAINT outbox_what CHECK (what IN ('enquiry', 'additions', 'copy', 'full-day')),
    -- What was added, as JSON, where it tells of additions; how many a day were taken, where it tells of a full day.
    added TEXT,
    -- Tells several rows of additions apart.
    number INTEGER NOT NULL DEFAULT 0,
    way TEXT NOT NULL CONSTRAINT outbox_way CHECK (way IN ('mail', 'webhook')),
    -- A webhook's address; a mail goes where the setup says when it is sent.
    url TEXT NOT NULL DEFAULT '',
    made TEXT NOT NULL,
    state TEXT NOT NULL DEFAULT 'waiting' CONSTRAINT outbox_state CHECK (state IN ('waiting', 'sent', 'given-up')),
    -- When it is tried next, or was tried last if nothing more is to come.
    due TEXT NOT NULL,
    -- Until then a sender has it; one that ended without a word loses it.
    leased_until TEXT,
    tries INTEGER NOT NULL DEFAULT 0,
    -- Why the last try failed, in words for the installer.
    failure TEXT,
    CONSTRAINT outbox_once UNIQUE (client_key, what, number, way, url)
) STRICT;

INSERT INTO outbox_next (id, client_key, way, url, made, state, due, leased_until, tries, failure)
    SELECT id, client_key, way, url, made, state, due, leased_until, tries, failure FROM outbox;

DROP TABLE outbox;
ALTER TABLE outbox_next RENAME TO outbox;
CREATE INDEX outbox_due ON outbox (state, way, due);

-- Copies that were mailed to homeowners within a day, so that nobody is mailed often: SHA-256 of the address, and when.
CREATE TABLE copies (
    address_hash TEXT NOT NULL CONSTRAINT copies_address PRIMARY KEY,
    at TEXT NOT NULL
) STRICT;

-- Enquiries that became a job. The mark is made while the enquiry is kept; once that is deleted, the rest of the row is what the law asks to
-- be kept of it, apart, until its own day.
CREATE TABLE jobs (
    client_key TEXT NOT NULL CONSTRAINT jobs_client_key PRIMARY KEY,
    -- What it became: words with a space between them.
    became TEXT NOT NULL,
    until TEXT NOT NULL,
    -- When the enquiry was deleted; none as long as it is kept.
    deleted TEXT,
    reference TEXT,
    received TEXT,
    name TEXT,
    address TEXT,
    postcode TEXT
) STRICT;

CREATE INDEX jobs_by_day ON jobs (until);

-- When the enquiry came at the earliest, where the order in which they were stored shows that the clock was behind: when the one before it came.
ALTER TABLE enquiries ADD COLUMN came_after TEXT;
