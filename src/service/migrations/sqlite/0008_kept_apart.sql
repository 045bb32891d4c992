-- What is told of an enquiry after its arrival.

-- The outbox, made again: one enquiry may have several rows of one way, for what was added to it.
CREATE TABLE outbox_next (
    -- The mail's Message-ID or the webhook's id: the same however often it is tried.
    id TEXT NOT NULL CONSTRAINT outbox_id PRIMARY KEY,
    client_key TEXT NOT NULL REFERENCES enquiries (client_key) ON DELETE CASCADE,
    -- What it tells of.
    what TEXT NOT NULL DEFAULT 'enquiry' CONSTRAINT outbox_what CHECK (what IN ('enquiry', 'additions', 'copy')),
    -- What was added, as JSON, where it tells of additions.
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
