-- Who may sign in: accounts, each with one of two roles, a password and perhaps a second factor.

CREATE TABLE accounts (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL CONSTRAINT accounts_name UNIQUE,
    role TEXT NOT NULL CONSTRAINT accounts_role CHECK (role IN ('owner', 'colleague')),
    -- Argon2id, as a PHC string.
    password_hash TEXT NOT NULL,
    -- The secret of the codes (RFC 6238) in base32; none where no code is asked for.
    totp_secret TEXT,
    -- The step of the last code that was taken: no code of it, or of one before it, is taken again.
    totp_step INTEGER NOT NULL DEFAULT 0
) STRICT;

-- The one password that there was is the owner's.
INSERT INTO accounts (name, role, password_hash) SELECT 'owner', 'owner', value FROM settings WHERE name = 'password';
DELETE FROM settings WHERE name = 'password';

-- Whose session it is, and when it was last used, to the hour. What is open goes on as the owner's.
CREATE TABLE account_sessions (
    token_hash TEXT NOT NULL CONSTRAINT sessions_token PRIMARY KEY,
    account INTEGER NOT NULL REFERENCES accounts (id) ON DELETE CASCADE,
    until TEXT NOT NULL,
    used TEXT NOT NULL
) STRICT;
INSERT INTO account_sessions (token_hash, account, until, used)
    SELECT token_hash, accounts.id, until, strftime('%Y-%m-%dT%H:%M:%SZ', 'now') FROM sessions, accounts;
DROP TABLE sessions;
ALTER TABLE account_sessions RENAME TO sessions;

-- As whom a browser signed in before: its attempts at that account are counted apart from strangers'.
CREATE TABLE account_browsers (
    token_hash TEXT NOT NULL CONSTRAINT known_browsers_token PRIMARY KEY,
    account INTEGER NOT NULL REFERENCES accounts (id) ON DELETE CASCADE,
    until TEXT NOT NULL
) STRICT;
INSERT INTO account_browsers (token_hash, account, until) SELECT token_hash, accounts.id, until FROM known_browsers, accounts;
DROP TABLE known_browsers;
ALTER TABLE account_browsers RENAME TO known_browsers;

-- Which account an attempt is at: the hash of the name that was tried, whether there is one of that name or not.
ALTER TABLE attempts ADD COLUMN account TEXT;
CREATE INDEX attempts_at ON attempts (account, at);

-- Wrong codes after a right password, by who sent them: a browser that is known for the account, or anybody else.
CREATE TABLE wrong_codes (
    id INTEGER PRIMARY KEY,
    account INTEGER NOT NULL REFERENCES accounts (id) ON DELETE CASCADE,
    who TEXT NOT NULL,
    at TEXT NOT NULL
) STRICT;
CREATE INDEX wrong_codes_of ON wrong_codes (account, who, at);
