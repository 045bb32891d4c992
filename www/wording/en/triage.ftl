# The installer's page, in English.
