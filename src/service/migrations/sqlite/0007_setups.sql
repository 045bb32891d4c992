-- The setups that the service ran by: each version as the file that was taken in, newest last. They hold cost prices and perhaps passwords.

CREATE TABLE setups (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    taken TEXT NOT NULL,
    -- Of the text, in hexadecimal digits.
    sha256 TEXT NOT NULL,
    -- JSON, byte for byte as it came.
    setup TEXT NOT NULL
) STRICT;
