-- Whom the installer's service tells of an enquiry: a row for each mail and each webhook, stored with the enquiry itself.

CREATE TABLE outbox (
    -- The mail's Message-ID or the webhook's id: the same however often it is tried.
    id TEXT NOT NULL CONSTRAINT outbox_id PRIMARY KEY,
    client_key TEXT NOT NULL REFERENCES enquiries (client_key) ON DELETE CASCADE,
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
    CONSTRAINT outbox_once UNIQUE (client_key, way, url)
) STRICT;

CREATE INDEX outbox_due ON outbox (state, way, due);
